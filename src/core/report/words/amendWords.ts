// Why an amendment is left to a person, or was not taken into the plan in force, in words. Once, for screens and files.
import type { ByHand, NotTaken } from '../../fixes/amendMore.ts';

export function byHandToWords(why: ByHand): string {
  switch (why.type) {
    case 'not-settled':
      return 'what happened is not settled; one check is still to do';
    case 'labels-wrong':
      return 'the labels are wrong, not the plan';
    case 'many-jacks':
      return 'its label is at more than two jacks';
    case 'not-followed':
      return 'this does not change the plan by itself';
  }
}

export function notTakenToWords(why: NotTaken): string {
  switch (why.type) {
    case 'no-cable':
      return 'the plan in force has no such cable';
    case 'no-jack':
      return 'the plan in force has no such jack';
    case 'no-unit':
      return 'the plan in force has no such unit';
    case 'other-value':
      return 'the plan in force has another value';
    case 'elsewhere':
      return 'the plan in force has it elsewhere';
    case 'no-room':
      return 'the rack has no room for it there';
    case 'taken':
      return `the plan has ${why.by} there`;
  }
}
