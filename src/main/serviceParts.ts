// What the joined services are made of. Types only.
import type { Signal } from '@preact/signals';
import type { Commands } from '../store/commands.ts';
import type { StationStore } from '../store/database.ts';
import type { Directory } from '../store/directory.ts';
import type { PhoneSettings } from '../ui/services.ts';
import type { RecordClient } from './recordClient.ts';

export interface ServiceParts {
  store: StationStore;
  commands: Commands;
  directory: Directory;
  record: RecordClient;
  settings: Signal<PhoneSettings>;
  stationName: Signal<string>;
}
