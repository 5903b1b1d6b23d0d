// The same company on both databases, one process or several.
import { describeServerCompany } from '../contract/serverCompany.ts';
import { onBothDatabases } from './bothDatabases.ts';

onBothDatabases(describeServerCompany);
