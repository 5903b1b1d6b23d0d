// The same promises on both databases.
import { describeServerDatabase } from '../contract/serverDatabase.ts';
import { onBothDatabases } from './bothDatabases.ts';

onBothDatabases(describeServerDatabase);
