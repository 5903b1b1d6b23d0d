// The answers about the desk check of the plan in force and the station's own rules.
import type { Station } from '../core/audit/station.ts';
import { deskView } from '../core/report/deskView.ts';
import type { DeskQuestions } from '../wire/pageDesk.ts';

type Answers = { [Q in keyof DeskQuestions]: (given: DeskQuestions[Q]['ask']) => DeskQuestions[Q]['answer'] };

export function deskAnswers(station: Station): Answers {
  return {
    desk: () => {
      const index = station.planInForce()?.index;
      return index ? deskView(index, station.rules().rules) : null;
    },
    siteRules: () => station.rules(),
  };
}
