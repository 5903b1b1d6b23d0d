// What lies over the walk while something is described at a jack. Each form is loaded when it is first opened, so that
// the walk itself stays small.
import { useSignal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { useEffect } from 'preact/hooks';
import { counted } from '../inHand.ts';
import type { PartMode } from '../walk/walkFlowType.ts';
import type { PartProps } from './partSheet.tsx';

const FORMS: Record<PartMode, () => Promise<{ default: ComponentType<PartProps> }>> = {
  part: () => import('./partHere.tsx'),
  panel: () => import('./partPanel.tsx'),
  power: () => import('./partPower.tsx'),
  colour: () => import('./partColour.tsx'),
  lead: () => import('./partLead.tsx'),
};

function isPart(mode: string): mode is PartMode {
  return mode in FORMS;
}

export function PartOver({ flow, view }: PartProps) {
  const form = useSignal<{ mode: string; Form: ComponentType<PartProps> } | null>(null);
  const mode = flow.mode.value;
  const load = isPart(mode) ? FORMS[mode] : null;
  useEffect(() => {
    if (!load) return;
    counted(load()).then(
      (module) => {
        form.value = { mode, Form: module.default };
      },
      () => {
        flow.mode.value = 'walk';
        flow.line.value = 'This form is not on the phone. Open it again where there is a network.';
      },
    );
  }, [mode]);
  if (!load || form.value?.mode !== mode) return null;
  const { Form } = form.value;
  return (
    <div class="walk-over">
      <Form flow={flow} view={view} />
    </div>
  );
}
