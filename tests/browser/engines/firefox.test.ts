// Firefox ESR from the system's packages. Where it cannot be had, npm test leaves this file out and says so.
import { describe } from 'vitest';
import { smoke } from './smoke.ts';
import { whole } from './whole.ts';

describe('in Firefox', () => smoke('firefox'));

describe('the whole way in Firefox', () => whole('firefox'));
