// Which jack the next touch on a photo means, when it is not the one that comes next. Chooses and records nothing.
import type { PlaceId, UnitId } from '../../core/plan/identity.ts';
import type { PinChoice } from '../../core/report/photosView.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Choice } from '../parts/form.tsx';
import { Row } from '../parts/rows.tsx';

/** More units than can be ruled side by side are a list. */
const UNITS_ABREAST = 6;

export function PinJack(props: {
  choice: PinChoice;
  onClose: () => void;
  onUnit: (unit: UnitId) => void;
  onJack: (place: PlaceId) => void;
}) {
  const { choice } = props;
  return (
    <Dialog
      title={`Which jack of ${choice.unitLabel}?`}
      onClose={props.onClose}
      rows={[[{ big: 'Cancel', onPress: props.onClose }]]}
    >
      {choice.units.length > 1 && choice.units.length <= UNITS_ABREAST && (
        <Choice
          legend="Unit"
          value={choice.unit}
          options={choice.units.map(({ unit, label }) => ({ value: unit, text: label }))}
          onChoose={props.onUnit}
        />
      )}
      {choice.jacks.map((jack) => (
        <Row
          key={jack.place}
          title={<span class="ident">{jack.label}</span>}
          right={jack.pinned ? 'pinned' : jack.said ? 'said' : undefined}
          current={jack.place === choice.next}
          onPress={() => props.onJack(jack.place)}
        />
      ))}
      {choice.units.length > UNITS_ABREAST && <h3>Another unit</h3>}
      {choice.units.length > UNITS_ABREAST &&
        choice.units
          .filter(({ unit }) => unit !== choice.unit)
          .map(({ unit, label }) => (
            <Row key={unit} title={<span class="ident">{label}</span>} onPress={() => props.onUnit(unit)} />
          ))}
    </Dialog>
  );
}
