// One reconciliation as a document: which sections, in which order, and what stands before and after them. The only
// place where a report gets its order; it counts nothing anew.

import { isHazard } from '../../trade/kinds.ts';
import type { Reconciliation } from '../reconciliation.ts';
import { counted } from '../words/plain.ts';
import { CLOSING_WORDS, coverageToWords, wholeToWords } from '../words/reportSentences.ts';
import { REPORT_WORDS, SECTION_WORDS } from '../words/reportWords.ts';
import { causes, decisions, differenceCount, differences, severities, worst } from './differenceSections.ts';
import { type Block, type ReportDocument, SECTION_IDS, type Section, type SectionId, timeWriter } from './document.ts';
import { caution, paragraph, runs, strong, time } from './make.ts';
import {
  added,
  asLeft,
  cables,
  confirmed,
  leftOut,
  media,
  notLooked,
  onPurpose,
  pairs,
  racks,
  remarks,
  renaming,
  tests,
  toProve,
  walk,
  window,
} from './walkSections.ts';

export interface ReportAbout {
  /** When it is made, and by which version of the program. */
  madeAt: number;
  version: string;
  /** Zone in which times are written, such as `Europe/London`; UTC when left out. */
  timeZone?: string;
}

export function reportDocument(report: Reconciliation, about: ReportAbout): ReportDocument {
  const timeZone = about.timeZone ?? 'UTC';
  const when = timeWriter(timeZone);
  const { before, main, after } = wholeToWords(report);
  const closed = report.closedAt === null ? [REPORT_WORDS.open] : ['Audit closed ', time(report.closedAt), '.'];
  return {
    language: 'en-GB',
    title: `${report.station}: ${report.name}`,
    above: runs(`${report.station}. `, ...closed),
    name: report.name,
    lead: [
      { type: 'paragraph', tone: 'lead', runs: runs(`${before} `, strong(main), ` ${after}`) },
      paragraph(coverageToWords(report.coverage)),
    ],
    sections: SECTION_IDS.flatMap((id): Section[] => {
      const blocks = blocksOf(id, report, when);
      return blocks.length === 0 ? [] : [{ id, title: SECTION_WORDS[id], count: countOf(id, report), blocks }];
    }),
    closing: [
      caution(CLOSING_WORDS),
      paragraph(`${REPORT_WORDS.namesTyped} Times are of the phones’ clocks, in ${timeZone}. ${REPORT_WORDS.claims}`),
      paragraph('Made ', time(about.madeAt), ` by version ${about.version}.`),
    ],
    when,
  };
}

function blocksOf(id: SectionId, report: Reconciliation, when: (at: number) => string): Block[] {
  switch (id) {
    case 'cables':
      return cables(report);
    case 'worst':
      return worst(report);
    case 'severities':
      return severities(report);
    case 'hazards':
      return differences(report.lines.filter(isHazard));
    case 'causes':
      return causes(report, when);
    case 'differences':
      return differences(report.lines.filter((line) => !isHazard(line)));
    case 'decisions':
      return decisions(report, when);
    case 'tests':
      return tests(report);
    case 'racks':
      return racks(report);
    case 'not-looked':
      return notLooked(report);
    case 'left-out':
      return leftOut(report);
    case 'added':
      return added(report);
    case 'as-left':
      return asLeft(report);
    case 'window':
      return window(report);
    case 'on-purpose':
      return onPurpose(report);
    case 'pairs':
      return pairs(report);
    case 'to-prove':
      return toProve(report);
    case 'renaming':
      return renaming(report);
    case 'remarks':
      return remarks(report);
    case 'media':
      return media(report, when);
    case 'confirmed':
      return confirmed(report);
    case 'walk':
      return walk(report, when);
  }
}

/** A long list begins with how many; a number has its noun. */
function countOf(id: SectionId, report: Reconciliation): string | null {
  switch (id) {
    case 'worst':
      return `${differenceCount(report)} in all`;
    case 'hazards':
      return counted(report.lines.filter(isHazard).length, 'hazard');
    case 'differences':
      return counted(report.lines.filter((line) => !isHazard(line)).length, 'difference');
    case 'causes':
      return counted(report.explained.causes.length, 'cause');
    case 'decisions':
      return `${report.undecided} open`;
    case 'not-looked':
      return counted(report.notLooked.length, 'jack');
    case 'as-left':
    case 'window':
      return counted(id === 'window' ? report.forWindow.length : report.left.length, 'place');
    case 'tests': {
      const failed = report.tests.filter(({ result, again }) => result === 'fail' && !again).length;
      return `${counted(report.tests.length, 'test')}, ${failed} failed now`;
    }
    case 'on-purpose':
      return counted(report.changes.length, 'cable');
    case 'renaming':
      return report.renaming ? `${report.renaming.counts.done} of ${report.renaming.counts.all} done` : null;
    case 'media': {
      const { photos, voices } = report.media;
      const said = [
        photos.length > 0 && counted(photos.length, 'photo'),
        voices.length > 0 && counted(voices.length, 'voice note'),
      ];
      return said.filter(Boolean).join(', ');
    }
    case 'confirmed':
      return counted(report.confirmed.length, 'cable');
    case 'cables':
    case 'severities':
    case 'racks':
    case 'left-out':
    case 'added':
    case 'pairs':
    case 'to-prove':
    case 'remarks':
    case 'walk':
      return null;
  }
}
