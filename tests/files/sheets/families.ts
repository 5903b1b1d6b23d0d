// All fixtures, by family.
import { DECADES } from './decades.ts';
import type { Fixture } from './fixture.ts';
import { GONE } from './gone.ts';
import { NETWORK } from './network.ts';
import { NO_CABLES } from './noCables.ts';
import { NORTHERN } from './northern.ts';
import { NUMBERS } from './numbers.ts';
import { PANELS } from './panels.ts';
import { SHAPES } from './shapes.ts';
import { SOUTHERN } from './southern.ts';
import { TITLES } from './titles.ts';

export const FAMILIES: readonly Fixture[][] = [
  TITLES,
  NORTHERN,
  SOUTHERN,
  DECADES,
  NUMBERS,
  NETWORK,
  NO_CABLES,
  GONE,
  SHAPES,
  PANELS,
];
