// What a person says of a place and how it was taken, as the screens of the walk hand it on. Types only.
import type { Payload } from '../../core/record/events.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';

export type By = 'camera' | 'wedge' | 'typed' | 'tapped' | 'still' | 'double';

export type Sighting = Payload<'sighting'>;

export type Earlier = Pick<WalkView['looks'][number], 'event' | 'author' | 'at' | 'label' | 'state'>;
