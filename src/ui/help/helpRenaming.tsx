// The help page of a relabelling. Words only.

export function Renaming() {
  return (
    <div class="desk-part">
      <p>
        Circuits stay, names change. A cable is renamed when both ends bear the new label, the old ones are off and what
        names it on pages and strips shows the new name. Until then the plan keeps the old one.
      </p>
      <ol class="help-steps">
        <li>
          Begin an audit with the occasion Relabel and bring the list in: a sheet with two columns (old and new, from
          and to, current and becomes), pasted lines such as 2005 -&gt; 3005, or a rule. Names may be exchanged or
          passed on in a chain; a name that another cable keeps is refused. Every row is shown before anything is
          recorded.
        </li>
        <li>Print the labels from the list: two for each cable, in walking order, each with its jack.</li>
        <li>
          At a jack read the old label, put the new one beside it, and tap “New is on”, or read the new one with the
          camera. The old one stays. Do the same at the other end.
        </li>
        <li>Only when both ends bear the new one, “Old is off” is offered. Peel it; no blade near jacket or bundle.</li>
        <li>
          “Half done” is always in view and opens the list, nearest first: what is still to fit or to take off, and
          where. “Go to” leads there by one touch, outside this audit as well. An audit with half-done cables is not
          closed: finish them, or hand them over in words.
        </li>
        <li>“Make the new names the plan” changes the finished ones and no others.</li>
      </ol>
      <p>
        While names are exchanged, one text means two cables. A new label read alone at a jack where nobody put it on is
        asked about: follow the cable, then say which. With permission to look only, the walk plans and offers no label
        act.
      </p>
    </div>
  );
}
