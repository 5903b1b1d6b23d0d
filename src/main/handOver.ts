// Gives a finished file to the person: by the share sheet where files can be shared, else as a download. Sharing needs
// a fresh tap, so nothing may be made here.

export function canHandOver(file: File): boolean {
  return navigator.canShare?.({ files: [file] }) === true;
}

export async function handOver(file: File): Promise<'shared' | 'saved' | 'cancelled'> {
  const touch = matchMedia('(pointer: coarse)').matches;
  if (touch && canHandOver(file)) {
    try {
      await navigator.share({ files: [file] });
      return 'shared';
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return 'cancelled';
    }
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return 'saved';
}

/** The texts that exist in memory only, as the file that any phone with this app brings in. */
export async function handOverUnsaved(texts: readonly string[]): Promise<void> {
  await handOver(new File([`${texts.join('\n')}\n`], 'not-saved.jsonl', { type: 'text/plain' }));
}
