// What every form at the jack is given. Types only.
import type { WalkView } from '../../core/report/walk/walkView.ts';
import type { WalkFlow } from '../walk/walkFlowType.ts';

export interface PartProps {
  flow: WalkFlow;
  view: WalkView;
}
