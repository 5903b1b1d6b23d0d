// Help for places without a plan, for cables without a label and for building. Words only.
import { CableLabel } from '../parts/label.tsx';

export function NoPlan() {
  return (
    <div class="desk-part">
      <ol class="help-steps">
        <li>
          On the first screen press <strong>Begin with no plan</strong>, and say what you may do there.
        </li>
        <li>
          <strong>Name a rack</strong>: scan or type its label, then give its height in U and where U1 is. Photograph
          front and rear before touching anything.
        </li>
        <li>
          <strong>Describe a unit</strong>: the next free U below the last one is offered; − and + set the free U
          between, or type the U. Tap its jacks together in groups, copy them from a unit like it, or write them in one
          line, in one to four rows.
        </li>
        <li>
          Each unit you save is confirmed in one line with <strong>Undo</strong>. Press a unit in the list to correct
          it: what you entered comes back, and entries at its jacks stay.
        </li>
        <li>
          <strong>Walk its jacks</strong>. What you read is recorded; not being in a plan is normal here and never a
          difference. When a label comes up a second time, both ends are known.
        </li>
        <li>
          When there is enough, press <strong>Use this record as the plan</strong> in the report. What nobody knows
          stays unknown.
        </li>
      </ol>
      <h3>Jacks in one line</h3>
      <dl class="desk-facts desk-facts-flush">
        <dt class="ident">8 x XLR in</dt>
        <dd>IN 1 to IN 8, inputs on XLR</dd>
        <dt class="ident">24 x RJ45 P01</dt>
        <dd>P01 to P24</dd>
        <dt class="ident">J1-J24/J25-J48</dt>
        <dd>two rows of 24; more rows the same way</dd>
        <dt class="ident">IN L/R</dt>
        <dd>two legs, IN L and IN R</dd>
        <dt class="ident">4 x "XLR 1"</dt>
        <dd>in quotes the name is used as written: XLR 1 to XLR 4</dd>
      </dl>
    </div>
  );
}

export function WaysToWalk() {
  return (
    <div class="desk-part">
      <dl class="desk-facts desk-facts-flush">
        <dt>Jack after jack</dt>
        <dd>The app shows the next jack; one scan or one tap records what is in it.</dd>
        <dt>Adding to the audit</dt>
        <dd>
          More, Add a rack, room or unit: the audit covers it from now on, and the report says who added it and when.
          You can walk a jack outside the audit too; the walk says so and offers to add it.
        </dd>
        <dt>Your own order</dt>
        <dd>
          More, Walking order: racks from either end, front or rear first, units from the top or the bottom, jacks from
          the left or the right. The phone keeps it for this audit.
        </dd>
        <dt>Label first</dt>
        <dd>
          More, Label first: read any cable in the bundle, then touch its jack. A dashed ring shows where the plan has
          it.
        </dd>
        <dt>Along the cables</dt>
        <dd>
          More, Which ends are left: the nearest open end, and an estimate of the time at your pace so far. Go along the
          cables from here, and each entry leads to the nearest end that is still open.
        </dd>
        <dt>By radio</dt>
        <dd>
          More, Far end by radio: one question at a time for a helper; answers are recorded as told, with the helper’s
          name.
        </dd>
        <dt>From photos</dt>
        <dd>Photograph a whole rear, pin jacks on it, and read the labels later, sitting down.</dd>
        <dt>For the maintenance window</dt>
        <dd>
          What needs hands or another time is collected with its reason. It is not offered to anybody who may only look.
        </dd>
        <dt>You or the cables?</dt>
        <dd>
          If two entries in a row are off by the same step, the app asks. “Me” moves your entries, with their notes and
          pictures.
        </dd>
      </dl>
    </div>
  );
}

export function Twins() {
  return (
    <div class="desk-part">
      <p>
        A cable without a label gets a temporary tag, in a pair: one on this end now, one with the same number on the
        other end when you find it. Print strips under Labels, or write them by hand. A second copy of a strip puts one
        number on two cables, so the app shows first what this phone has printed.
      </p>
      <ol class="help-steps">
        <li>
          Press <strong>No label</strong> at the jack. Where you may touch, the next number is offered:{' '}
          <CableLabel text="U-017" />. Tap once when the tag is on.
        </li>
        <li>
          With a strip, read its tag right after <strong>No label</strong>: it counts for that jack, not for the next
          one. <strong>Undo</strong> takes it off again.
        </li>
        <li>
          At another jack read or type <CableLabel text="U-017" />: the app names the first end, and now both are known.
        </li>
        <li>
          <strong>Not now</strong> counts for that jack until you resume the walk. <strong>More, Temporary tags</strong>{' '}
          lists the tags whose other end is still to be found and the plugs without a tag, nearest first.
        </li>
      </ol>
      <p>
        Where you can read the jacket, <strong>More, Jacket and metre mark</strong> finds the other end without
        touching: write down the print and the metre mark at each end. Two ends with the same print are shown as{' '}
        <strong>probable</strong>, with the length between their marks; a third end with that print leaves it open. It
        is an estimate and joins nothing: put a tag on both ends, or follow the cable.
      </p>
      <p>
        The phone that began the first audit counts up from <CableLabel text="U-001" />; every other phone starts far
        away, in its own block of five digits, so two phones hardly ever give the same number. With a printed strip, say
        under <strong>More, Temporary tags</strong> where it starts: its numbers come next. A number given by two phones
        counts as two cables until somebody follows the cable from one place to the other: the list says by whom and
        when, and whose number to change. Search shows both.
      </p>
    </div>
  );
}

export function Building() {
  return (
    <div class="desk-part">
      <ol class="help-steps">
        <li>
          Begin an audit with the occasion <strong>Build</strong>. Where you may move a plug, the big button records the
          planned cable as plugged or landed in one tap.
        </li>
        <li>
          <strong>More, Work on this end</strong>: pulled, landed, labelled, tested. A test that failed keeps the
          tester’s words until one passes.
        </li>
        <li>
          If a cable goes elsewhere than planned, the app asks once: on purpose, why, and for a lash-up until when.
        </li>
        <li>
          <strong>More, What is left to build</strong>: the ends still to do, nearest first, and every lash-up.
        </li>
      </ol>
      <p>
        The app shows what is written and what was seen. It never says that something may be plugged: local codes, site
        permits and licensed trades come first.
      </p>
    </div>
  );
}
