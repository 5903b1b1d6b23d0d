// Whether the camera starts by itself when the walk is opened, and what is kept for that.
import { FLAG } from '../../drafts/draftKind.ts';
import type { Services } from '../../services.ts';

const STARTED = 'camera-was-started';

/** That it ran is kept on this phone, and with the tab through a reload. */
export function rememberStart(services: Services): void {
  void services.saveDraft(STARTED, true, FLAG);
  try {
    sessionStorage.setItem(STARTED, 'yes');
  } catch {
    // Where nothing may be kept, the next load asks for a tap.
  }
}

function ranInTab(): boolean {
  try {
    return sessionStorage.getItem(STARTED) !== null;
  } catch {
    return false;
  }
}

/** By itself only where the person pressed Start before and nobody has forbidden it since. */
export async function mayStart(services: Services): Promise<boolean> {
  if ((await services.draft(STARTED, FLAG)) !== true) return false;
  try {
    // Browsers that can tell know the name; the types of the web platform do not have it.
    const permission = await navigator.permissions.query({ name: 'camera' as PermissionName });
    // Firefox and WebKit ask anew after each load. One question is enough: a reload in mid-walk goes straight to it.
    return permission.state === 'granted' || (permission.state === 'prompt' && ranInTab());
  } catch {
    // Some browsers do not tell; there the earlier tap has to do.
    return true;
  }
}
