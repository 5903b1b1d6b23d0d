// What the exchange promises, on both databases.
import { describeServerDamage } from '../contract/serverDamage.ts';
import { describeServerExchange } from '../contract/serverExchange.ts';
import { onBothDatabases } from './bothDatabases.ts';

onBothDatabases((fresh) => {
  describeServerExchange(fresh);
  describeServerDamage(fresh);
});
