// What does not fit in the record, in words: entries kept aside or beside others, clocks that are wrong, and two phones
// that said different things of the station. Says whose it is, how much, and what to do.
import type { Ahead } from '../../core/record/clocks.ts';
import type { Stand, Whole } from '../../core/rules/station.ts';
import type { AsideRun, LogTrouble } from '../../store/record/asideView.ts';
import { count } from '../words.ts';

export interface Trouble {
  title: string;
  lines: string[];
  todo: string;
}

/** A hole as wide as that is hardly one: the number behind it is false. */
const FALSE_NUMBER = 1_000_000;

const whose = (author: string): string => (author === '' ? 'a phone without a name' : `${author}’s phone`);

export function logToTrouble(log: LogTrouble): Trouble {
  const lines = [...asideLines(log), ...namedLines(log)];
  if (log.own) {
    return {
      title: 'This phone',
      lines,
      todo: 'Somebody may be using a copy of this phone’s storage: tell whoever runs the server. Go on recording here as before.',
    };
  }
  const phone = whose(log.author);
  return {
    title: `${phone.charAt(0).toUpperCase()}${phone.slice(1)}`,
    lines,
    todo:
      log.aside > 0
        ? `Open Send and receive on ${phone} and send. If that does not help, make its file there and import it here: what fits goes in at once.`
        : 'Nothing is lost. If you do not know why, ask who uses that phone.',
  };
}

function asideLines({ own, author, aside, runs }: LogTrouble): string[] {
  if (aside === 0) return [];
  if (own)
    return [
      `${count(aside, 'entry from elsewhere claims to be this phone’s and does', 'entries from elsewhere claim to be this phone’s and do')} not follow its own entries. Kept aside.`,
    ];
  const told = runs.map((run) => runWords(run, whose(author)));
  const rest = aside - runs.reduce((sum, { entries }) => sum + entries, 0);
  return rest > 0 ? [...told, `${count(rest, 'further entry', 'further entries')} kept aside.`] : told;
}

/** Entries are counted from 1 for people. */
function runWords(run: AsideRun, phone: string): string {
  const kept = `${count(run.entries, 'later entry is', 'later entries are')} kept aside until then.`;
  if (run.type === 'fork') {
    return `Entry ${run.at + 1} of ${phone} does not follow the entries here. ${count(run.entries, 'entry is', 'entries are')} kept aside.`;
  }
  const { from, to } = run;
  if (to - from >= FALSE_NUMBER) {
    return `${count(run.entries, `entry of ${phone} has a number`, `entries of ${phone} have numbers`)} much too high. Kept aside.`;
  }
  if (from === to) return `Entry ${from + 1} of ${phone} has not arrived. ${kept}`;
  return `Entries ${from + 1} to ${to + 1} of ${phone} have not arrived. ${kept}`;
}

function namedLines({ own, named }: LogTrouble): string[] {
  const lines: string[] = [];
  const same = named['same-number'] ?? 0;
  const copies = named['own-log'] ?? 0;
  const other = named['same-id-other-text'] ?? 0;
  if (same > 0) lines.push(`${count(same, 'entry has', 'entries have')} the same number as another entry. Both count.`);
  if (own && copies === 1) lines.push('1 entry from elsewhere follows this phone’s own. It counts.');
  if (own && copies > 1) lines.push(`${copies} entries from elsewhere follow this phone’s own. They count.`);
  if (other > 0)
    lines.push(
      `${count(other, 'entry', 'entries')} arrived with the id of an entry here but other contents. The first one counts; the other is kept with it.`,
    );
  return lines;
}

export function aheadWords({ author, entries, latest }: Ahead, at: (time: number) => string): string {
  const who = author === '' ? 'Somebody without a name' : author;
  return `${who}: ${count(entries, 'entry is', 'entries are')} dated in the future, the latest ${at(latest)}.`;
}

const SAID: Record<Whole, { title: string; act: (words: string) => string; todo: string }> = {
  plan: {
    title: 'Two plans',
    act: (words) => `put the plan ${words || 'without a name'} in force`,
    todo: 'The first one is in use. Using another plan settles it.',
  },
  name: {
    title: 'Two names of the station',
    act: (words) => `named the station ${words || '(no name)'}`,
    todo: 'The first one is shown. Naming the station again settles it.',
  },
  rules: {
    title: 'Two sets of site rules',
    act: () => 'set the site rules',
    todo: 'The first set is in use. Setting the rules again settles it.',
  },
};

/** Null where phones agree. */
export function standToTrouble(whole: Whole, { heads, disputed }: Stand, at: (time: number) => string): Trouble | null {
  if (!disputed) return null;
  const { title, act, todo } = SAID[whole];
  const lines = heads.slice(0, 5).map(({ by, at: when, words }) => `${by || 'Somebody'} ${act(words)}, ${at(when)}.`);
  if (heads.length > 5) lines.push(`And ${heads.length - 5} more.`);
  return { title, lines: [...lines, 'Neither knew about the other.'], todo };
}
