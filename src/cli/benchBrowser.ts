// Measurements in a real Chromium against the built app. Without a build or a browser the rows are left out, and why is
// said; a row is never made up.
import type { Row } from './benchMeasure.ts';

export async function measureBrowser(say: (text: string) => void, _root: string): Promise<Row[]> {
  say('No browser row yet.');
  return [];
}
