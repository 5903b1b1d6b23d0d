// A value off the page, the plate or the knobs of the unit in hand: what it is called, whose it is, what it says. Phantom
// is two buttons. Every stroke is a draft, and nothing that was typed is corrected.
import { batch, useSignal } from '@preact/signals';
import { settingNameKeys, settingOwner } from '../../../core/trade/settingNames.ts';
import { useServices } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Choice, Field } from '../../parts/form.tsx';
import type { SheetProps } from '../walkSheetProps.ts';
import { notSavedToWords } from '../walkWords.ts';
import { placeOf } from './walkSheetsText.tsx';

const NAMES = [
  'address',
  'MAC',
  'serial',
  'host name',
  'mask',
  'gateway',
  'software version',
  'source name',
  'channel',
  'gain',
  'phantom',
  'pad',
];

type Whose = 'unit' | 'jack';

export function SettingSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const at = placeOf(flow);
  const name = useDraftText(`setting-name:${flow.audit}`);
  const value = useDraftText(`setting-value:${flow.audit}`);
  const chosen = useSignal<Whose | null>(null);
  const usual = settingOwner(name.text);
  const whose = chosen.value ?? usual;
  const isPhantom = settingNameKeys(name.text).key === 'PHANTOM';
  if (!at) return null;
  const isNamed = name.text.trim() !== '' && whose !== null;
  async function keep(said: string): Promise<void> {
    if (!at || whose === null) return;
    close();
    const read = { unit: at.unit, name: name.text.trim(), value: said, basis: 'page' as const };
    const own = usual === 'unit' ? { of: 'jack' as const } : {};
    const payload = whose === 'unit' ? read : { ...read, place: at.place, ...own };
    const result = await services.record('setting-read', payload, { audit: flow.audit });
    const words = `${whose === 'unit' ? at.unitLabel : at.words}, ${read.name}: ${said}`;
    if (result.event === '') {
      flow.line.value = notSavedToWords(result);
      return;
    }
    name.drop();
    value.drop();
    const told = await services.ask('valueRead', { audit: flow.audit, event: result.event });
    await flow.acted({ event: result.event, place: at.place, words, line: told?.line ?? `${words}.` });
    if (told?.hazardAt) {
      const verdict = await services.ask('verdict', { audit: flow.audit, place: told.hazardAt });
      batch(() => {
        flow.line.value = null;
        flow.verdict.value = verdict;
        flow.said.value = verdict && { ...verdict };
      });
    }
  }
  const cancel = { big: 'Cancel', onPress: close };
  const choices: { value: Whose; text: string; second: string }[] = [
    { value: 'unit', text: at.unitLabel, second: 'the whole unit' },
    { value: 'jack', text: at.words, second: 'this jack alone' },
  ];
  return (
    <Dialog
      title={`Read off ${at.unitLabel}`}
      onClose={close}
      rows={[
        isPhantom
          ? [
              cancel,
              { small: 'Phantom', big: 'Off', disabled: !isNamed, onPress: () => void keep('off') },
              { small: 'Phantom', big: 'On', disabled: !isNamed, onPress: () => void keep('on') },
            ]
          : [
              cancel,
              {
                big: 'Record',
                primary: true,
                share: 2,
                disabled: !isNamed || value.text.trim() === '',
                onPress: () => void keep(value.text.trim()),
              },
            ],
      ]}
    >
      <Field label="What" value={name.text} onInput={name.set} suggestions={NAMES} />
      <Choice<Whose>
        legend="Whose is it?"
        value={whose ?? undefined}
        options={usual === 'jack' ? [...choices].reverse() : choices}
        onChoose={(next) => {
          chosen.value = next;
        }}
      />
      {!isPhantom && <Field label="Value, exactly as shown" value={value.text} onInput={value.set} ident />}
    </Dialog>
  );
}
