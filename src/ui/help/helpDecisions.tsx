// Help on judging causes and deciding differences. Words only; nothing here calls anything free of risk.
export function Decisions() {
  return (
    <div class="desk-part">
      <p>
        Under Differences the app shows which causes fit what was seen. A person says, by name, what happened and what
        to do about it.
      </p>
      <ol class="help-steps">
        <li>
          Open a cause. <strong>Accept</strong> settles it and drops its alternatives. How sure the checks are stays
          beside it: your name is not a check.
        </li>
        <li>
          <strong>No</strong> needs a reason. Then the next best cause is shown, or the differences stay on their own.{' '}
          <strong>It is something else…</strong> puts your own words in its place.
        </li>
        <li>
          New checks that speak against a decision reopen it. The old decision stays in view until it is taken back.
        </li>
        <li>
          <strong>Fix the wiring</strong>, <strong>Update the plan</strong> or <strong>Leave it</strong>: for a cause
          and all it covers, or for one difference. What is usual on this occasion is marked and takes one tap; anything
          else needs a reason.
        </li>
        <li>
          Entries that contradict each other are shown side by side, with who and when. <strong>Check again</strong>{' '}
          leads to the jack; until then there is nothing to decide or fix.
        </li>
        <li>A difference keeps its number for good, on every phone: it comes from its kind, places and labels.</li>
        <li>
          If two people disagree, both are shown and nothing is decided until one takes theirs back. Every signed line
          has an Undo.
        </li>
        <li>
          A hazard to people or equipment stays in view at its full severity, whatever is decided. The report lists
          every decision with name and reason, counts what has none yet, and lists the changes to the plan.
        </li>
        <li>
          <strong>Update the plan</strong>, in the report, makes them a new revision: ends of cables, values, heights of
          units, cables the plan did not have. What cannot go in is listed with the reason.
        </li>
      </ol>
    </div>
  );
}
