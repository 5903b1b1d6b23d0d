// Joins store, workers, camera and exchange to what the screens may ask for. Everything heavy is loaded when it is
// first needed, so that the home screen answers at once.

import { effect } from '@preact/signals';
import type { AuditId } from '../core/plan/identity.ts';
import type { EventKind, Payload } from '../core/record/events.ts';
import type { HomeView } from '../core/report/walk/homeView.ts';
import type { StoreResult } from '../store/failures.ts';
import { homeSummary, ownLog, persistence } from '../store/queries.ts';
import { busy } from '../ui/context.ts';
import type { Recorded, Services } from '../ui/services.ts';
import { applyUpdate, offlineReady, updateReady } from '../ui/update.ts';
import type { ServiceParts } from './serviceParts.ts';
import { createShown, type Shown } from './shown.ts';
import { withStanding } from './standing.ts';
import { newId, now } from './station.ts';

/** The kept summary is of the page that wrote it: one of another shape is not shown, the worker's own comes soon after. */
const HOME_SHAPE = 2;

export function createServices(parts: ServiceParts): Services {
  const { store, commands, record, settings, stationName } = parts;
  const shown = createShown(parts);
  commands.onElsewhere((texts) => void record.take(texts));
  addEventListener('pageshow', () => void commands.catchUp());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible') return;
    void commands.catchUp();
    void commands.retry();
  });
  watchHome(parts);

  const exchange = lazyExchange(parts, shown);
  const recordEvent = recording(parts, shown, exchange);
  const drafts = once(
    () => import('./drafts.ts'),
    ({ createKept }) => createKept(store, () => services),
  );
  const askStorage = async (ask: boolean): Promise<boolean | null> => {
    const answer = await persistence(ask);
    shown.storage.value = { persisted: answer.persisted, usedBytes: answer.usage, quotaBytes: answer.quota };
    return answer.persisted;
  };
  void askStorage(false);
  watchSettings(parts, drafts);

  const services: Services = {
    stationName,
    changed: record.changed,
    ask: record.ask,
    homeAtOnce: async () => {
      const read = await store.run((db) => homeSummary(db));
      const kept = read.type === 'done' ? (read.value as { shape?: unknown; view?: HomeView } | undefined) : undefined;
      return kept?.shape === HOME_SHAPE ? (kept.view ?? null) : null;
    },
    record: recordEvent,
    log: async () => {
      const read = await store.run((db) => ownLog(db));
      return read.type === 'done' ? (read.value ?? null) : null;
    },
    newId,
    now,
    draft: async (...given) => (await drafts()).draft(...given),
    saveDraft: async (...given) => (await drafts()).saveDraft(...given),
    dropDraft: async (...given) => (await drafts()).dropDraft(...given),
    draftsAside: async () => (await drafts()).draftsAside(),
    dropAside: async (...given) => (await drafts()).dropAside(...given),
    settings,
    unsent: shown.unsent,
    notSaved: shown.notSaved,
    retrySaving: async () => void (await commands.retry()),
    storage: shown.storage,
    askPersistence: () => askStorage(true),
    ...media(parts, exchange),
    ...scanners(parts),
    ...sheets(parts, drafts, recordEvent),
    ...exchanged(shown, exchange),
    ...files(parts),
    update: {
      ready: updateReady,
      offlineReady,
      apply: () => applyUpdate(async () => void (await commands.retry())),
      version: __ASFOUND_VERSION__,
    },
    installed: () => matchMedia('(display-mode: standalone)').matches,
    platform: () =>
      /iPad|iPhone|iPod/.test(navigator.userAgent) ? 'ios' : /Android/.test(navigator.userAgent) ? 'android' : 'other',
  };
  return services;
}

type Exchange = ReturnType<typeof import('./exchange.ts').createExchange>;
type Drafts = ReturnType<typeof import('./drafts.ts').createKept>;
type Later<T> = () => Promise<T>;

/** Loaded and made when it is first asked for. */
function once<M, T>(load: Later<M>, make: (loaded: M) => T | Promise<T>): Later<T> {
  let made: Promise<T> | undefined;
  return () => (made ??= load().then(make));
}

/**
 * The exchange with its schemas is not needed for the first screen to answer, so it waits until the page is idle, or
 * until somebody asks for it.
 */
function lazyExchange(parts: ServiceParts, shown: Shown): Later<Exchange> {
  const exchange = once(
    () => import('./exchange.ts'),
    ({ createExchange }) => createExchange({ ...parts, ...shown }),
  );
  whenIdle(() => void exchange());
  return exchange;
}

function recording(parts: ServiceParts, shown: Shown, exchange: Later<Exchange>): Services['record'] {
  const { store, commands, directory, record, stationName } = parts;
  return async <K extends EventKind>(kind: K, payload: Payload<K>, about?: { audit?: AuditId }): Promise<Recorded> => {
    const said = await withStanding(kind, payload, () => record.ask('standing', {}));
    const result = await commands.record(kind, said, about);
    if (result.type === 'too-long') {
      return {
        type: 'not-saved',
        event: '',
        why: `The text is too long: ${result.characters} of ${result.limit} characters.`,
      };
    }
    // The fold follows at once, on disk or not: the person sees what was said, and the bar says what is not saved.
    await record.take([result.text]);
    void exchange().then((sync) => sync.nudge('record'));
    if (kind === 'station-named') {
      const { name } = payload as Payload<'station-named'>;
      stationName.value = name;
      await directory.openedStation({ id: store.station, name, openedAt: now() });
    }
    if (result.type === 'saved') return { type: 'saved', event: result.id };
    shown.failed(result.why.type);
    return { type: 'not-saved', event: result.id, why: result.why.type };
  };
}

/** Keeps the home screen's view on disk, so that the next start shows it before the fold is there. */
function watchHome({ record, commands }: ServiceParts): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    if (record.changed.value === 0) return;
    clearTimeout(timer);
    // During a walk the worker belongs to the next verdict; a long plan's summary can wait.
    const wait = busy.peek() > 0 ? 10_000 : 400;
    timer = setTimeout(
      () => void record.ask('home', {}).then((view) => commands.saveHome({ shape: HOME_SHAPE, view })),
      wait,
    );
  });
}

function watchSettings({ settings, directory }: ServiceParts, drafts: Later<Drafts>): void {
  async function settingSaved(saved: StoreResult<void>): Promise<void> {
    if (saved.type !== 'done') await (await drafts()).tell({ type: 'not-kept', key: 'settings', why: saved.type });
  }
  effect(() => {
    const kept = settings.value;
    for (const key of ['author', 'theme', 'hand', 'camera', 'feel'] as const)
      if (kept[key] !== null) void directory.saveSetting(key, kept[key]).then(settingSaved);
  });
}

type Media = Pick<Services, 'addPhoto' | 'addVoice' | 'photoUrl' | 'documentBytes'>;

function media({ store, commands, record }: ServiceParts, exchange: Later<Exchange>): Media {
  const photos = once(
    () => import('./photos.ts'),
    ({ createPhotos }) =>
      createPhotos({
        store,
        commands,
        async recorded(text) {
          await record.take([text]);
          void exchange().then((sync) => sync.nudge('record'));
        },
      }),
  );
  return {
    addPhoto: async (...given) => (await photos()).addPhoto(...given),
    addVoice: async (...given) => (await photos()).addVoice(...given),
    photoUrl: async (...given) => (await photos()).photoUrl(...given),
    documentBytes: async (...given) => (await photos()).documentBytes(...given),
  };
}

function scanners({ settings }: ServiceParts): Pick<Services, 'camera' | 'wedge'> {
  return {
    async camera(place, circle) {
      const [{ createCamera }, { startDecodeWorker }] = await Promise.all([
        import('../scan/camera.ts'),
        import('../workers/decodeClient.ts'),
      ]);
      const decoder = typeof WebAssembly === 'object' ? startDecodeWorker() : null;
      return createCamera({ place, now, decoder, camera: settings.peek().camera, ...(circle ? { circle } : {}) });
    },
    wedge: async () => {
      const { createWedge } = await import('../scan/wedge.ts');
      return createWedge({ target: document, now });
    },
  };
}

type Sheets = Pick<Services, 'readSheet' | 'readTables' | 'adoptPlan' | 'adoptSheet' | 'planFiles' | 'openDemo'>;

function sheets(parts: ServiceParts, drafts: Later<Drafts>, recordEvent: Services['record']): Sheets {
  const adopting = once(
    () => import('./adopting.ts'),
    async ({ createAdopting }) => createAdopting({ ...parts, drafts: await drafts(), recordEvent }),
  );
  return {
    readSheet: async (...given) => (await import('./sheets.ts')).readSheet(parts, ...given),
    readTables: async (...given) => (await import('./sheets.ts')).readTables(...given),
    adoptPlan: async (...given) => (await adopting()).adoptPlan(...given),
    adoptSheet: async (...given) => (await adopting()).adoptSheet(...given),
    planFiles: async (...given) =>
      (await import('./planSheets.ts')).planFiles({ ...parts, drafts: await drafts() }, ...given),
    openDemo: async () => (await adopting()).openDemo(),
  };
}

function exchanged({ state, sending, others }: Shown, exchange: Later<Exchange>): Pick<Services, 'sync' | 'presence'> {
  return {
    sync: {
      state,
      sending,
      sendAgain: async (key) => (await exchange()).sendAgain(key),
      setPhotosWait: async (wait) => (await exchange()).setPhotosWait(wait),
      sendPhotosNow: () => void exchange().then((sync) => sync.sendPhotosNow()),
      now: () => void exchange().then((sync) => sync.now()),
      pair: async (code, phone) => (await exchange()).pair(code, phone),
      unpair: async () => (await exchange()).unpair(),
      newCode: async () => (await exchange()).newCode(),
      phones: async () => (await exchange()).phones(),
      revoke: async (phone) => (await exchange()).revoke(phone),
    },
    presence: { others, say: (at) => void exchange().then((sync) => sync.company.say(at)) },
  };
}

type Files = Pick<
  Services,
  'exportUnsaved' | 'prepareBundle' | 'handOver' | 'logTroubles' | 'presentTime' | 'takeBundle'
>;

function files(parts: ServiceParts): Files {
  const { store, commands, settings, stationName } = parts;
  return {
    exportUnsaved: async () => (await import('./handOver.ts')).handOverUnsaved(commands.unsaved()),
    prepareBundle: async () => (await import('./bundles.ts')).prepareFile(store, commands, stationName.value),
    handOver: async (file) => (await import('./handOver.ts')).handOver(file),
    logTroubles: async () => (await import('./aside.ts')).logTroubles(store),
    presentTime: async () => (await import('./aside.ts')).presentTime(store),
    takeBundle: async (file) => (await import('./bundles.ts')).bringBundle(parts, () => settings.peek(), file),
  };
}

/** Not every browser tells when it is idle; half a second after the first screen is as good. */
function whenIdle(call: () => void): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(call, { timeout: 3000 });
  else setTimeout(call, 500);
}
