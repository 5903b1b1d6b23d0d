// What every sheet of the walk is given. Types only.
import type { WalkCamera } from './walkCamera.ts';
import type { WalkFlow } from './walkFlowType.ts';

export interface SheetProps {
  flow: WalkFlow;
  camera: WalkCamera;
  close: () => void;
}
