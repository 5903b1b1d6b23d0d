// Help on judging causes and deciding differences. Words only; nothing here calls anything free of risk.
export function Decisions() {
  return (
    <div class="desk-part">
      <p>
        Under Differences the app tells which causes fit what was seen. What happened, and what is to be done about it,
        a person says, by name.
      </p>
      <ol class="help-steps">
        <li>
          Open a cause. <strong>Accept</strong> makes it the story and takes its alternative away. How sure the looks
          are stays beside it: your name is no look.
        </li>
        <li>
          <strong>No</strong> wants a reason. The next best story is told then, or the differences stand for themselves.
          <strong> It is something else…</strong> puts your own words in its place.
        </li>
        <li>
          New looks that speak against what was said open it again: “Reopened: new looks at …”. The old word stays in
          view until it is taken back.
        </li>
        <li>
          <strong>Fix the floor</strong>, <strong>Amend the record</strong> or <strong>Leave it</strong>, at a cause for
          all that it covers or at one difference. What is usual on this occasion is marked and takes one tap; anything
          else wants its reason.
        </li>
        <li>
          Entries that contradict each other are shown side by side, with who and when. <strong>Check again</strong>{' '}
          leads to the jack; before that there is nothing to decide, to fix or to amend.
        </li>
        <li>A difference keeps its number for good, on every phone: it is made of its kind, places and labels.</li>
        <li>
          Two people who do not agree are both shown, and nothing is decided until one of them is taken back. Undo
          stands beside every signed line.
        </li>
        <li>
          A hazard to people or equipment stays in view and as bad as it is, whatever is said or decided. The report
          lists all of it with names and reasons, counts what has no decision yet, and lists what is to be amended.
        </li>
        <li>
          <strong>Put the amendments into the plan</strong>, in the report, makes them a new revision: ends of cables,
          values, heights of units, cables that the plan did not have. What cannot go in is listed with why.
        </li>
      </ol>
    </div>
  );
}
