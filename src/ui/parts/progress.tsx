// How far long work is, as a bar. It keeps nothing and says nothing in words.

/** @param share From 0 to 1. */
export function Progress({ label, share }: { label: string; share: number }) {
  return (
    <div
      class="desk-progress"
      role="progressbar"
      aria-valuenow={Math.round(share * 100)}
      aria-valuemin={0}
      aria-valuemax={100}
      aria-label={label}
    >
      <div style={{ width: `${Math.max(4, share * 100)}%` }} />
    </div>
  );
}
