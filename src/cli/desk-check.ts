// `npm run desk-check -- FILE [--rules FILE] [--json]`: what a schedule gets wrong by itself, worst first, each with its
// rows. It changes no file.
import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { SEVERITY_WORDS } from '../core/report/words/words.ts';
import { deskCheck } from '../core/schedule/desk/deskCheck.ts';
import type { DeskFinding } from '../core/schedule/desk/finding.ts';
import { readSiteRules, type SiteRules, USUAL_RULES } from '../core/schedule/desk/siteRules.ts';
import { SEVERITIES } from '../core/trade/kinds.ts';
import { readPlan, type Streams, toConsole } from './readPlan.ts';

const USAGE = 'Usage: npm run desk-check -- FILE [--rules FILE] [--json]';

/** @returns 0 nothing found, 1 something found, 2 unusable input. */
export async function main(argv: string[], streams: Streams = toConsole): Promise<number> {
  const fail = (sentence: string): number => {
    streams.err(`${sentence}\n`);
    return 2;
  };
  let given: { values: { rules?: string | undefined; json?: boolean | undefined }; positionals: string[] };
  try {
    const options = { rules: { type: 'string' }, json: { type: 'boolean' } } as const;
    given = parseArgs({ args: argv, options, allowPositionals: true });
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}\n${USAGE}`);
  }
  const [file, ...more] = given.positionals;
  if (file === undefined || more.length > 0) return fail(`One schedule is needed.\n${USAGE}`);
  const rules = given.values.rules === undefined ? USUAL_RULES : await readRules(given.values.rules);
  if (typeof rules === 'string') return fail(rules);
  const read = await readPlan(file, rules);
  if (typeof read === 'string') return fail(read);
  const { plan } = read;
  const findings = deskCheck(plan, rules);
  streams.out(given.values.json ? `${JSON.stringify({ plan: plan.name, findings }, null, 2)}\n` : toText(findings));
  return findings.length > 0 ? 1 : 0;
}

async function readRules(file: string): Promise<SiteRules | string> {
  try {
    const read = readSiteRules(JSON.parse(await readFile(file, 'utf8')));
    return read.type === 'rules' ? read.rules : `${file}, ${read.where}: ${read.why}.`;
  } catch (error) {
    return `${file}: ${error instanceof SyntaxError ? 'is no JSON' : 'cannot be opened'}. Give a file of the station’s rules.`;
  }
}

function toText(findings: readonly DeskFinding[]): string {
  if (findings.length === 0) return 'Nothing contradicts itself on paper. The racks may still differ.\n';
  const parts = SEVERITIES.flatMap((severity) => {
    const mine = findings.filter((one) => one.severity === severity);
    if (mine.length === 0) return [];
    const lines = mine.map(({ line, rows }) => `  ${line}${rowsToWords(rows)}`);
    return [`${SEVERITY_WORDS[severity]}: ${mine.length}`, ...lines, ''];
  });
  return `${parts.join('\n')}${findings.length} in all.\n`;
}

function rowsToWords(rows: DeskFinding['rows']): string {
  if (rows.length === 0) return '';
  return ` (${rows.map(({ sheet, row }) => `${sheet} row ${row}`).join(', ')})`;
}
