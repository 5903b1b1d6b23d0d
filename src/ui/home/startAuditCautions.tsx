// The cautions that are read before a walk near racks. The words come from the trade's own list; nothing here says
// that anything can be done without risk.
import type { Permission } from '../../core/record/events.ts';
import { hazardById } from '../../core/trade/hazards.ts';
import { Caution } from '../parts/hazard.tsx';
import { SectionHead } from '../parts/rows.tsx';

const BEFORE: readonly string[] = [
  'mains',
  'earth-missing',
  'power-on-shared-jack',
  'fibre',
  'telephone-ringing',
  'height',
];
const WITH_HANDS: readonly string[] = ['phantom-on-ribbon', 'hearing', 'strain'];

export function StartCautions(props: { permission: Permission }) {
  const ids = props.permission === 'look' ? BEFORE : [...BEFORE, ...WITH_HANDS];
  return (
    <>
      <SectionHead title="Before you go in" />
      <p class="home-line">
        Local codes, site permits and licensed trades come before this list. Do not work alone near dangerous circuits,
        and tell the control room where you are.
      </p>
      {ids.map((id) => {
        const hazard = hazardById(id);
        return (
          hazard && (
            <Caution key={id} word={hazard.title}>
              {hazard.caution}
            </Caution>
          )
        );
      })}
    </>
  );
}
