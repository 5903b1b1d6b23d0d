// The few requests to the server that are not part of the exchange: phones of a station, codes for further phones, where
// this phone's person is. Only our own server's answers are believed.
import * as z from 'zod/mini';
import {
  codeAnswerSchema,
  errorSchema,
  type PresenceSaid,
  phonesAnswerSchema,
  presenceAnswerSchema,
  WIRE_HEADER,
  WIRE_VERSION,
} from '../wire/sync.ts';

/** `status` is null when our server did not answer. */
type Called<T> = { type: 'ok'; value: T } | { type: 'failed'; why: string; status: number | null };

async function call<T>(
  method: string,
  path: string,
  token: string,
  schema: z.ZodMiniType<T> | null,
  body?: unknown,
): Promise<Called<T | null>> {
  try {
    const answer = await fetch(path, {
      method,
      headers: { authorization: `Bearer ${token}`, [WIRE_HEADER]: String(WIRE_VERSION) },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      signal: AbortSignal.timeout(10_000),
      cache: 'no-store',
      redirect: 'manual',
    });
    const json: unknown = await answer.json().catch(() => null);
    const { status } = answer;
    if (!/^[0-9]{1,6}$/.test(answer.headers.get(WIRE_HEADER) ?? ''))
      return { type: 'failed', why: 'Something else answered: a log-in page or a proxy.', status: null };
    if (!answer.ok) {
      const error = z.safeParse(errorSchema, json);
      return { type: 'failed', why: error.success ? error.data.sentence : `The server answered ${status}.`, status };
    }
    if (!schema) return { type: 'ok', value: null };
    const read = z.safeParse(schema, json);
    return read.success
      ? { type: 'ok', value: read.data }
      : { type: 'failed', why: 'The answer could not be read.', status };
  } catch {
    return { type: 'failed', why: 'The server did not answer. Try again where there is a network.', status: null };
  }
}

export const serverCalls = {
  phones: (token: string) => call('GET', '/api/phones', token, phonesAnswerSchema),
  revoke: (token: string, phone: string) => call('DELETE', `/api/phones/${encodeURIComponent(phone)}`, token, null),
  presence: (token: string, at: PresenceSaid | null) =>
    call('PUT', '/api/presence', token, presenceAnswerSchema, { at }),
  newCode: (token: string) => call('POST', '/api/codes', token, codeAnswerSchema),
};
