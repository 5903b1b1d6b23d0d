// The words where the record cannot be opened: what is missing, and what to do about exactly that. Loaded when needed.
import type { Opened } from './station.ts';

export type CannotOpenWhy = Extract<Opened, { type: 'failed' }>['why']['type'] | 'bug';

export const CANNOT_OPEN: Record<CannotOpenWhy, { what: string; where?: string; todo: string }> = {
  'newer-version': { what: 'The app was updated in another tab.', todo: 'Reload to go on. Nothing is lost.' },
  'not-secure': {
    what: 'This address has no secure connection (HTTPS).',
    where:
      'Over plain HTTP a browser gives no checksums, no camera and no offline use, and every entry needs its checksum.',
    todo:
      'Open the app over HTTPS. Two ways: a public name for the server with a certificate from a public authority, or a ' +
      'certificate authority of your own that this phone trusts. The server’s README says how. On the machine that runs ' +
      'the server, the address that begins with http://localhost works as it is.',
  },
  full: {
    what: 'The record on this phone cannot be opened.',
    where: 'The phone has no space left.',
    todo: 'Free some space, then reload. Nothing was deleted.',
  },
  'no-database': {
    what: 'The record on this phone cannot be opened.',
    where: 'The browser does not give access to its storage.',
    todo: 'Leave private browsing, or let this site keep data, then reload. Nothing was deleted.',
  },
  'store-lost': {
    what: 'The record on this phone cannot be opened.',
    where: 'The browser’s storage does not answer.',
    todo: 'Close the browser altogether and open the app again. Nothing was deleted.',
  },
  bug: {
    what: 'The app could not start.',
    where: 'Something in it failed that should not.',
    todo: 'Reload. If that does not help, restart the phone. Nothing was deleted.',
  },
};
