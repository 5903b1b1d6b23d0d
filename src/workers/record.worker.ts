// Holds the plan in force and the fold of every audit; the page holds only the slice of its screen. It reads nothing
// itself: texts and plans are handed to it, so there is one owner of the database.

import { readPlanData } from '../core/plan/model.ts';
import { createStation } from '../core/rules/station.ts';
import { PAGE_VERSION, type PageToWorker, type Question, type TextsTaken, type WorkerToPage } from '../wire/page.ts';
import { createAnswers } from './answers.ts';

const station = createStation();
const answers = createAnswers(station);

function handle(message: PageToWorker): unknown {
  if (message.version !== PAGE_VERSION)
    throw new Error(`page ${message.version}, worker ${PAGE_VERSION}: reload the app`);
  switch (message.type) {
    case 'texts': {
      const taken = station.addTexts(message.texts);
      return { ...taken, audits: [...taken.audits] } satisfies TextsTaken;
    }
    case 'plan': {
      const plan = readPlanData(JSON.parse(new TextDecoder().decode(message.bytes)));
      if (!plan.success) throw new Error('The plan on this phone cannot be read by this build.');
      station.addPlan(message.revision, plan.data);
      return null;
    }
    case 'ask': {
      const answer = answers[message.question as Question] as (given: unknown) => unknown;
      return answer(message.with);
    }
  }
}

self.onmessage = ({ data }: MessageEvent<PageToWorker>) => {
  let reply: WorkerToPage;
  try {
    reply = { type: 'done', id: data.id, value: handle(data) };
  } catch (error) {
    reply = { type: 'failed', id: data.id, why: error instanceof Error ? error.message : String(error) };
  }
  self.postMessage(reply);
};
