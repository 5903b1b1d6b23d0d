// WebKitGTK, the engine of every iPhone, from the system's packages. Where it cannot be had, npm test leaves this file
// out and says so.
import { describe } from 'vitest';
import { smoke } from './smoke.ts';

describe('in WebKit', () => smoke('webkit'));
