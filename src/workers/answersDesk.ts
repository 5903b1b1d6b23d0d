// The answers about the desk check of the plan in force and the station's own rules.

import { factsAt } from '../core/plan/planIndex.ts';
import { deskView } from '../core/report/plan/deskView.ts';
import type { Station } from '../core/rules/station.ts';
import { audioPinsToWords } from '../core/trade/audioPins.ts';
import { isModular } from '../core/trade/signals.ts';
import type { DeskQuestions } from '../wire/pageDesk.ts';

type Answers = { [Q in keyof DeskQuestions]: (given: DeskQuestions[Q]['ask']) => DeskQuestions[Q]['answer'] };

export function deskAnswers(station: Station): Answers {
  return {
    desk: () => {
      const index = station.planInForce()?.index;
      return index ? deskView(index, station.rules().rules) : null;
    },
    siteRules: () => station.rules(),
    audioPins: ({ audit, place }) => {
      const index = station.audit(audit)?.fold?.index;
      if (!index) return null;
      const { signal, connector = '' } = factsAt(index, place);
      const { rules, set } = station.rules();
      const words = isModular(connector) ? audioPinsToWords(signal, rules.audioPins) : null;
      return words === null ? null : { words, own: set !== null };
    },
  };
}
