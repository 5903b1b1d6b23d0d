// Sentences of differences and report, from the counts of one reconciliation. No markup, no state, and never a word
// that something may be done without risk.
import type { DifferenceLine, Reconciliation } from '../../core/report/reconciliation.ts';

export const BASIS_WORDS: Record<string, string> = {
  seen: 'By eye',
  followed: 'Followed',
  page: 'Off the page',
  told: 'Told',
  inferred: 'Inferred',
};

export function isHazard(line: Pick<DifferenceLine, 'severity'>): boolean {
  return line.severity === 'people' || line.severity === 'equipment';
}

const OCCASIONS: Record<string, string> = {
  inherit: 'Inherited place: what is in every jack',
  'after-move': 'After a move: the floor against the plan',
  relabel: 'Relabelling',
  build: 'Building',
};

export function occasionToWords(occasion: string): string {
  return OCCASIONS[occasion] ?? occasion;
}

const PERMISSIONS: Record<string, string> = {
  look: 'look only',
  touch: 'look and touch',
  disconnect: 'look, touch and unplug',
};

export function permissionToWords(permission: string): string {
  return PERMISSIONS[permission] ?? permission;
}

export function reportName(report: Pick<Reconciliation, 'station' | 'name' | 'lastAt'>, ending: string): string {
  const plain = `${report.station} ${report.name}`
    .normalize('NFKC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const date = new Date(report.lastAt || 0).toISOString().slice(0, 10);
  return `${plain.slice(0, 80) || 'report'}-${date}.${ending}`;
}

/** The report in two sentences; the numbers add up to the cables in scope. */
export function leadOf(report: Pick<Reconciliation, 'coverage' | 'lines'>): {
  before: string;
  strong: string;
  after: string;
} {
  const { coverage: c, lines } = report;
  const hazards = lines.filter(isHazard).length;
  const onAir = lines.filter(({ severity }) => severity === 'on-air').length;
  const parts = [
    c.differ > 0 && `${c.differ} ${c.differ === 1 ? 'differs' : 'differ'}`,
    c.oneEnd > 0 && `${c.oneEnd} seen at one end only`,
    c.notSeen > 0 && `${c.notSeen} not seen`,
    c.cablesNotVerified > 0 && `${c.cablesNotVerified} could not be seen`,
  ].filter(Boolean);
  const risk = [
    hazards > 0 && `${hazards} ${hazards === 1 ? 'finding is a hazard' : 'findings are hazards'}`,
    onAir > 0 && `${onAir} ${onAir === 1 ? 'reaches' : 'reach'} the air`,
  ].filter(Boolean);
  const end = (list: (string | false)[]) => (list.length > 0 ? `${list.join(', ')}.` : '');
  return {
    before: `Of ${c.cables} ${c.cables === 1 ? 'cable' : 'cables'}, `,
    strong: `${c.bothEnds} ${c.bothEnds === 1 ? 'is' : 'are'} where the plan says, at both ends`,
    after: ['.', end(parts), end(risk)].filter(Boolean).join(' ').replace(/^\. ?/, '. ').trimEnd(),
  };
}
