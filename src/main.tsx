// The one place where the browser's parts are joined: database, workers, camera, exchange, screens.
import { signal } from '@preact/signals';
import { render } from 'preact';
import { createRecordClient } from './main/recordClient.ts';
import { createServices } from './main/services.ts';
import { commandsFor, openPhone } from './main/station.ts';
import { App } from './ui/app.tsx';
import { drawNamesApart } from './ui/bidi.ts';
import { ServicesContext } from './ui/context.ts';
import { counted, told } from './ui/inHand.ts';
import { ErrorBox } from './ui/parts/rows.tsx';
import { route, startRouter } from './ui/router.ts';
import { reportFiles } from './ui/screens/reportFiles.ts';
import type { PhoneSettings } from './ui/services.ts';
import { registerUpdates } from './ui/update.ts';
import './ui/look/index.css';

const root = document.getElementById('app')!;

async function start(): Promise<void> {
  startRouter();
  drawNamesApart();
  // The screens may not reach the file makers themselves, and nobody needs them before a report is asked for.
  reportFiles.value = async () => {
    const [html, csv] = await Promise.all([import('./files/reportHtml.ts'), import('./files/reportCsv.ts')]);
    return { reportToHtml: html.reportToHtml, reportToCsv: csv.reportToCsv };
  };
  const opened = await openPhone();
  if (opened.type === 'failed') {
    render(<CannotOpen why={opened.why.type} />, root);
    return;
  }
  const { entry } = opened;
  const [store, directory] = [told(opened.store), told(opened.directory)];
  const kept = opened.settings.type === 'done' ? opened.settings.value : {};
  const settings = signal<PhoneSettings>({
    author: kept.author ?? '',
    theme: kept.theme ?? 'auto',
    hand: kept.hand ?? 'right',
    camera: kept.camera ?? null,
    feel: kept.feel ?? null,
  });
  const commands = told(commandsFor(store, () => settings.peek().author || 'name not given'));
  // A plan that events name and that is not here is fetched at once, not at the next round.
  let fetchNow = () => {};
  const record = told(createRecordClient(store, (sha) => void commands.wantDocument(sha).then(() => fetchNow())));
  // A walk waits for the record: it is read while the screen itself is still on its way. Whoever asks hears of a failure.
  if (route.peek().screen === 'walk') record.start().catch(() => undefined);
  store.onTrouble((trouble) => {
    if (trouble.type === 'newer-version') render(<CannotOpen why="newer-version" />, root);
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
}

function CannotOpen({ why }: { why: string }) {
  const newer = why === 'newer-version';
  return (
    <ErrorBox
      what={newer ? 'The app was updated in another tab.' : 'The record on this phone cannot be opened.'}
      where={
        newer
          ? undefined
          : why === 'full'
            ? 'The phone has no space left.'
            : 'The browser does not give access to its storage.'
      }
      todo={
        newer
          ? 'Reload to go on. Nothing is lost.'
          : 'Leave private browsing, free some space, then reload. Nothing was deleted.'
      }
      action={{ text: 'Reload', onPress: () => location.reload() }}
    />
  );
}

counted(start()).catch((error: unknown) => {
  console.error(error);
  render(<CannotOpen why="bug" />, root);
});
