// The one place where the browser's parts are joined: database, workers, camera, exchange, screens.
import { signal } from '@preact/signals';
import { render } from 'preact';
import type { CannotOpenWhy } from './main/cannotOpen.ts';
import { createRecordClient } from './main/recordClient.ts';
import { createServices } from './main/services.ts';
import { commandsFor, openPhone } from './main/station.ts';
import { App } from './ui/app.tsx';
import { drawNamesApart } from './ui/bidi.ts';
import { ServicesContext } from './ui/context.ts';
import { counted, told } from './ui/inHand.ts';
import { ErrorBox } from './ui/parts/rows.tsx';
import { reportFiles } from './ui/report/reportFiles.ts';
import { route, startRouter } from './ui/router.ts';
import { phoneSettingsOf } from './ui/settings/phoneSettings.ts';
import { registerUpdates } from './ui/update.ts';
import './ui/look/index.css';

const root = document.getElementById('app')!;

async function start(): Promise<void> {
  startRouter();
  drawNamesApart();
  // The screens may not reach the file makers themselves, and nobody needs them before a report is asked for.
  reportFiles.value = async () => {
    const [html, csv] = await Promise.all([import('./files/reportHtml.ts'), import('./files/reportCsv.ts')]);
    return { documentToHtml: html.documentToHtml, reportToCsv: csv.reportToCsv };
  };
  const opened = await openPhone();
  if (opened.type === 'failed') {
    await tellCannotOpen(opened.why.type);
    return;
  }
  const { entry } = opened;
  const [store, directory] = [told(opened.store), told(opened.directory)];
  const settings = signal(phoneSettingsOf(opened.settings.type === 'done' ? opened.settings.value : {}));
  const commands = told(commandsFor(store, () => settings.peek().author || 'name not given'));
  // A plan that events name and that is not here is fetched at once, not at the next round.
  let fetchNow = () => {};
  const record = told(createRecordClient(store, (sha) => void commands.wantDocument(sha).then(() => fetchNow())));
  // A walk waits for the record: it is read while the screen itself is still on its way. Whoever asks hears of a failure.
  if (route.peek().screen === 'walk') record.start().catch(() => undefined);
  store.onTrouble((trouble) => {
    if (trouble.type === 'newer-version') void tellCannotOpen('newer-version');
  });
  const services = createServices({ store, commands, directory, record, settings, stationName: signal(entry.name) });
  fetchNow = () => services.sync.now();
  render(
    <ServicesContext.Provider value={services}>
      <App />
    </ServicesContext.Provider>,
    root,
  );
  registerUpdates();
  void commands.takeCopies();
  void import('./ui/focus.ts');
  void import('./ui/failures.ts').then(({ hearFailures }) => hearFailures(services));
}

/** Loaded only where it is needed; where even that fails, plain words have to do. */
async function tellCannotOpen(why: CannotOpenWhy): Promise<void> {
  try {
    const { CANNOT_OPEN } = await import('./main/cannotOpen.ts');
    render(<ErrorBox {...CANNOT_OPEN[why]} action={{ text: 'Reload', onPress: () => location.reload() }} />, root);
  } catch {
    root.textContent = 'The app cannot be opened. Reload the page; nothing was deleted.';
  }
}

counted(start()).catch((error: unknown) => {
  console.error(error);
  return tellCannotOpen('bug');
});
