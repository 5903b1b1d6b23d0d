// The rows under More that open the forms for what is met at a jack. Opens; records nothing.
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { Row } from '../parts/rows.tsx';
import type { PartMode, WalkFlow } from '../walk/walkFlowType.ts';

export function MoreParts({ flow, view, close }: { flow: WalkFlow; view: WalkView; close: () => void }) {
  const open = (mode: PartMode) => () => {
    close();
    flow.mode.value = mode;
  };
  return (
    <>
      <Row
        title="Adapter or tail here"
        second={`What hangs on ${view.current.jack}; its sockets are walked after ${view.unit.label}.`}
        onPress={open('part')}
      />
      <Row
        title="Patch lead"
        second="From jack to jack on the drawing; or no leads in this bay."
        onPress={open('lead')}
      />
      <Row
        title="Landed in colour order"
        second="Pairs, fibres, cores: in order, dead, spare, crossed, followed."
        onPress={open('colour')}
      />
      <Row title="Panel, block or trunk" onPress={open('panel')} />
      <Row title="Power" second="Feed, strip, supply; where a cord goes. Look only." onPress={open('power')} />
    </>
  );
}
