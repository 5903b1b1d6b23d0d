// The built app from one folder, read only. Nothing outside that folder and no hidden file may ever be answered.
import { readFile, realpath, stat } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { Context } from 'hono';
import { type Env, errorAnswer } from './answers.ts';

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.wasm': 'application/wasm',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.pdf': 'application/pdf',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  '.zip': 'application/zip',
};
const SHRINKS = new Set(['.html', '.js', '.mjs', '.css', '.json', '.webmanifest', '.svg', '.wasm', '.md', '.csv']);

const shrink = promisify(gzip);
type Found = { file: string; tag: string; size: number };

export function serveFiles(root: string): (c: Context<Env>) => Promise<Response> {
  // One shrunk copy per file; a rebuilt file has another tag and takes the old one's place.
  const shrunk = new Map<string, { tag: string; bytes: Uint8Array<ArrayBuffer> }>();

  async function bytesOf(found: Found, small: boolean): Promise<Uint8Array<ArrayBuffer>> {
    if (!small) return new Uint8Array(await readFile(found.file));
    const held = shrunk.get(found.file);
    if (held?.tag === found.tag) return held.bytes;
    const bytes = new Uint8Array(await shrink(await readFile(found.file), { level: 9 }));
    shrunk.set(found.file, { tag: found.tag, bytes });
    return bytes;
  }

  return async (c) => {
    const path = urlToPath(c.req.raw.url);
    if (path === null) return errorAnswer(c, 'bad-request', 'The path is not one this server could have.');
    const found = (await findFile(root, path)) ?? (wantsPage(c, path) ? await findFile(root, '/index.html') : null);
    if (!found) return errorAnswer(c, 'not-found');
    const ending = extname(found.file).toLowerCase();
    // Only names that hold their content's hash may be kept without asking; the page and the service worker never.
    c.header('Cache-Control', isHashed(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
    c.header('ETag', found.tag);
    c.header('Vary', 'Accept-Encoding');
    if (c.req.header('if-none-match') === found.tag) return c.body(null, 304);
    const small = SHRINKS.has(ending) && /\bgzip\b/.test(c.req.header('accept-encoding') ?? '');
    c.header('Content-Type', TYPES[ending] ?? 'application/octet-stream');
    if (small) c.header('Content-Encoding', 'gzip');
    const bytes = await bytesOf(found, small);
    c.header('Content-Length', String(bytes.byteLength));
    return c.req.method === 'HEAD' ? c.body(null) : c.body(bytes);
  };
}

/** The decoded path, or null when it tries to be anything but a plain way down from the root. */
export function urlToPath(url: string): string | null {
  const [raw = '/'] = url.replace(/^[a-z]+:\/\/[^/]*/i, '').split(/[?#]/);
  let path: string;
  try {
    path = decodeURIComponent(raw);
  } catch {
    return null;
  }
  const steps = path.split('/').slice(1);
  const hostile = steps.some((step) => step.startsWith('.') || /[\p{Cc}\\:]/u.test(step));
  return hostile || !path.startsWith('/') ? null : path;
}

function wantsPage(c: Context<Env>, path: string): boolean {
  return extname(path) === '' || (c.req.header('accept') ?? '').includes('text/html');
}

function isHashed(path: string): boolean {
  return path.startsWith('/assets/') && /-[A-Za-z0-9_-]{8,}\.[a-z0-9.]+$/.test(path);
}

async function findFile(root: string, path: string): Promise<Found | null> {
  try {
    const base = await realpath(root);
    // A link inside the folder could still lead out of it, so the real place is what counts.
    const file = await realpath(join(base, path === '/' ? 'index.html' : path));
    if (!file.startsWith(base + sep)) return null;
    const about = await stat(file);
    if (!about.isFile()) return null;
    return { file, size: about.size, tag: `W/"${about.size.toString(36)}-${Math.round(about.mtimeMs).toString(36)}"` };
  } catch {
    // Not there, or not to be read: for the asker the same.
    return null;
  }
}
