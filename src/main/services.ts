// Joins store, workers, camera and exchange to what the screens may ask for. Everything heavy is loaded when it is
// first needed, so that the home screen answers at once.

import { effect, signal } from '@preact/signals';
import type { AuditId } from '../core/plan/identity.ts';
import type { EventKind, Payload } from '../core/record/events.ts';
import type { HomeView } from '../core/report/walk/homeView.ts';
import type { StoreResult } from '../store/failures.ts';
import { homeSummary, observe, outboxSummary, ownLog, persistence } from '../store/queries.ts';
import { busy } from '../ui/context.ts';
import type { Recorded, Sending, Services, Unsent } from '../ui/services.ts';
import { applyUpdate, offlineReady, updateReady } from '../ui/update.ts';
import type { ServiceParts } from './serviceParts.ts';
import { withStanding } from './standing.ts';
import { newId, now } from './station.ts';

/** The kept summary is of the page that wrote it: one of another shape is not shown, the worker's own comes soon after. */
const HOME_SHAPE = 2;

type Exchange = ReturnType<typeof import('./exchange.ts').createExchange>;

const NOTHING_UNSENT: Unsent = { statements: 0, photos: 0, notes: 0, other: 0, bytes: 0, refused: 0 };

export function createServices(parts: ServiceParts): Services {
  const { store, commands, directory, record, settings, stationName } = parts;
  const unsent = signal<Unsent>(NOTHING_UNSENT);
  const notSaved = signal<ReturnType<Services['notSaved']['peek']>>({ count: 0, why: null, copied: false });
  const storage = signal<{ persisted: boolean | null; usedBytes: number | null; quotaBytes: number | null }>({
    persisted: null,
    usedBytes: null,
    quotaBytes: null,
  });
  const syncState = signal<ReturnType<Services['sync']['state']['peek']>>({ type: 'unpaired' });
  const sending = signal<Sending | null>(null);
  const others = signal<ReturnType<Services['presence']['others']['peek']>>([]);
  let lastWhy: string | null = null;

  observe(store, outboxSummary).subscribe(
    (value) => {
      unsent.value = value;
    },
    (failure) => {
      lastWhy = failure.type;
    },
  );
  commands.copied.subscribe((copied) => {
    notSaved.value = { ...notSaved.peek(), copied };
  });
  commands.unsavedCount.subscribe((count) => {
    notSaved.value = { ...notSaved.peek(), count, why: count > 0 ? lastWhy : null };
  });
  commands.onElsewhere((texts) => void record.take(texts));
  addEventListener('pageshow', () => void commands.catchUp());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible') return;
    void commands.catchUp();
    void commands.retry();
  });
  watchHome();

  // The exchange with its schemas is not needed for the first screen to answer, so it waits until the page is idle, or
  // until somebody asks for it.
  let running: Promise<Exchange> | null = null;
  const exchange = (): Promise<Exchange> => {
    running ??= import('./exchange.ts').then(({ createExchange }) => {
      const documentArrived = () => void record.documentArrived();
      return createExchange({ ...parts, state: syncState, sending, others, documentArrived });
    });
    return running;
  };
  whenIdle(() => void exchange());

  let media: Promise<ReturnType<typeof import('./photos.ts').createPhotos>> | null = null;
  const photos = () => {
    media ??= import('./photos.ts').then(({ createPhotos }) =>
      createPhotos({
        store,
        commands,
        async recorded(text) {
          await record.take([text]);
          void exchange().then((sync) => sync.nudge('record'));
        },
      }),
    );
    return media;
  };

  async function askStorage(ask: boolean): Promise<boolean | null> {
    const answer = await persistence(ask);
    storage.value = { persisted: answer.persisted, usedBytes: answer.usage, quotaBytes: answer.quota };
    return answer.persisted;
  }
  void askStorage(false);

  async function recordEvent<K extends EventKind>(
    kind: K,
    payload: Payload<K>,
    about?: { audit?: AuditId },
  ): Promise<Recorded> {
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
    if (kind === 'station-named') await renamed((payload as Payload<'station-named'>).name);
    if (result.type === 'saved') return { type: 'saved', event: result.id };
    lastWhy = result.why.type;
    notSaved.value = { ...notSaved.peek(), count: commands.unsavedCount.current(), why: lastWhy };
    return { type: 'not-saved', event: result.id, why: lastWhy };
  }

  async function renamed(name: string): Promise<void> {
    stationName.value = name;
    await directory.openedStation({ id: store.station, name, openedAt: now() });
  }

  let keeping: Promise<ReturnType<typeof import('./drafts.ts').createKept>> | null = null;
  const drafts = () => {
    keeping ??= import('./drafts.ts').then(({ createKept }) => createKept(store, () => services));
    return keeping;
  };

  const adopting = async () => ({
    ...(await import('./adopting.ts')),
    parts: {
      ...parts,
      drafts: await drafts(),
      adopted: (payload: Payload<'plan-adopted'>) => recordEvent('plan-adopted', payload),
    },
  });
  const adoptSheet: Services['adoptSheet'] = async (...given) => {
    const { adoptSheet: adopt, parts: made } = await adopting();
    return adopt(made, ...given);
  };

  /** Keeps the home screen's view on disk, so that the next start shows it before the fold is there. */
  function watchHome(): void {
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

  const settingsOf = () => settings.peek();
  async function settingSaved(saved: StoreResult<void>): Promise<void> {
    if (saved.type !== 'done') await (await drafts()).tell({ type: 'not-kept', key: 'settings', why: saved.type });
  }
  effect(() => {
    const kept = settings.value;
    for (const key of ['author', 'theme', 'hand', 'camera', 'feel'] as const)
      if (kept[key] !== null) void directory.saveSetting(key, kept[key]).then(settingSaved);
  });

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
    addPhoto: async (...given) => (await photos()).addPhoto(...given),
    addVoice: async (...given) => (await photos()).addVoice(...given),
    photoUrl: async (...given) => (await photos()).photoUrl(...given),
    documentBytes: async (...given) => (await photos()).documentBytes(...given),
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
    unsent,
    notSaved,
    retrySaving: async () => void (await commands.retry()),
    exportUnsaved: async () => (await import('./handOver.ts')).handOverUnsaved(commands.unsaved()),
    storage,
    askPersistence: () => askStorage(true),
    async camera(place, circle) {
      const [{ createCamera }, { startDecodeWorker }] = await Promise.all([
        import('../scan/camera.ts'),
        import('../workers/decodeClient.ts'),
      ]);
      const decoder = typeof WebAssembly === 'object' ? startDecodeWorker() : null;
      return createCamera({ place, now, decoder, camera: settingsOf().camera, ...(circle ? { circle } : {}) });
    },
    wedge: async () => {
      const { createWedge } = await import('../scan/wedge.ts');
      return createWedge({ target: document, now });
    },
    readSheet: async (...given) => (await import('./sheets.ts')).readSheet(parts, ...given),
    readTables: async (...given) => (await import('./sheets.ts')).readTables(...given),
    adoptPlan: async (plan) => {
      const { adoptPlan, parts: made } = await adopting();
      return adoptPlan(made, plan);
    },
    adoptSheet,
    planFiles: async (...given) =>
      (await import('./planSheets.ts')).planFiles({ ...parts, drafts: await drafts() }, ...given),
    openDemo: async () =>
      (await import('./demo.ts')).openDemo(store, (named) => recordEvent('station-named', named), adoptSheet),
    sync: {
      state: syncState,
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
    prepareBundle: async () => (await import('./bundles.ts')).prepareFile(store, commands, stationName.value),
    handOver: async (file) => (await import('./handOver.ts')).handOver(file),
    logTroubles: async () => {
      const read = await store.run((await import('../store/record/asideView.ts')).logTroubles);
      return read.type === 'done' ? read.value : [];
    },
    presentTime: async () => {
      const { presentTime } = await import('../store/record/asideView.ts');
      const read = await store.run((db) => presentTime(db, now()));
      return read.type === 'done' ? read.value : now();
    },
    takeBundle: async (file) => (await import('./bundles.ts')).bringBundle(parts, settingsOf, file),
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

/** Not every browser tells when it is idle; half a second after the first screen is as good. */
function whenIdle(call: () => void): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(call, { timeout: 3000 });
  else setTimeout(call, 500);
}
