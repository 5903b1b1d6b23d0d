// Holds the plan in force and the fold of every audit; the page holds only the slice of its screen. It reads nothing
// itself: texts and plans are handed to it, so there is one owner of the database.

import { readPlanData } from '../core/plan/model.ts';
import { createStation } from '../core/rules/station.ts';
import { fits } from '../wire/fits.ts';
import { type PageToWorker, pageToWorker, type Question, type TextsTaken } from '../wire/page.ts';
import { createAnswers } from './answers.ts';
import { serve } from './calls/serve.ts';

const station = createStation();
const answers = createAnswers(station);
const readMessage = fits(pageToWorker);

/** A question that this worker does not know is of another version too. */
function read(body: unknown): PageToWorker | undefined {
  const message = readMessage(body);
  return message?.type === 'ask' && !Object.hasOwn(answers, message.question) ? undefined : message;
}

function answer(message: PageToWorker): unknown {
  switch (message.type) {
    case 'texts': {
      const taken = station.addTexts(message.texts);
      return { ...taken, audits: [...taken.audits] } satisfies TextsTaken;
    }
    case 'plan': {
      const plan = readPlanData(JSON.parse(new TextDecoder().decode(message.bytes)));
      if (!plan.success) throw new Error('This version of the app cannot read the plan on this phone.');
      station.addPlan(message.revision, plan.data);
      return null;
    }
    case 'ask':
      return (answers[message.question as Question] as (given: unknown) => unknown)(message.with);
  }
}

serve(self, { read, answer });
