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
          <strong>Name a rack</strong>: scan its label or type it, give its height in U and where U1 is. Photograph
          front and rear before anything is touched.
        </li>
        <li>
          <strong>Describe a unit</strong>: the next free U below the last one is offered; − and + set the free U
          between, or type the U. Its jacks are tapped together in groups, copied from a unit like it, or written in one
          line, in one to four rows.
        </li>
        <li>
          Each unit kept says so in one line with <strong>Undo</strong>. Press a unit in the list to correct it: all
          that was said comes back, and what was said at its jacks stays.
        </li>
        <li>
          <strong>Walk its jacks</strong>. What you read is recorded; not being in a plan is normal here and never a
          difference. A label met a second time says that both ends are known.
        </li>
        <li>
          When enough is said, <strong>Make this record the plan</strong> stands in the report. What nobody knows stays
          in it as not known.
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
        <dd>in quotes the name is taken as it stands: XLR 1 to XLR 4</dd>
      </dl>
    </div>
  );
}

export function WaysToWalk() {
  return (
    <div class="desk-part">
      <dl class="desk-facts desk-facts-flush">
        <dt>Jack after jack</dt>
        <dd>The app shows the next jack; one scan or one tap says what is in it.</dd>
        <dt>More than was planned</dt>
        <dd>
          More, Add a rack, room or unit: this audit covers it from now on, and the report says who added it and when. A
          jack outside the audit can be walked too; the walk says so and offers to add it.
        </dd>
        <dt>Your own way</dt>
        <dd>
          More, Which way: racks from either end, front or rear first, units from the top or the bottom, jacks from the
          left or the right. The phone keeps it for this audit.
        </dd>
        <dt>Label first</dt>
        <dd>
          More, Label first: read any cable of the bundle, then touch its jack. A dashed ring shows where the plan has
          it.
        </dd>
        <dt>Along the cables</dt>
        <dd>
          More, Which ends are left: the nearest open end, and an estimate of the time at the pace so far. Go along the
          cables from here, and each statement leads to the nearest end that is still open.
        </dd>
        <dt>By radio</dt>
        <dd>More, Far end by radio: one question at a time for a helper; answers stand as told, with the name.</dd>
        <dt>From photos</dt>
        <dd>Photograph a whole rear, pin jacks on it, and read the labels later, sitting down.</dd>
        <dt>For the window</dt>
        <dd>
          What needs a hand or another time is collected with its reason, and offered to nobody who may only look.
        </dd>
        <dt>You or the cables?</dt>
        <dd>Two equal steps in a row are asked about. “Me” moves what you said, its notes and pictures with it.</dd>
      </dl>
    </div>
  );
}

export function Twins() {
  return (
    <div class="desk-part">
      <p>
        A cable that bears nothing gets a temporary number, twice: one label on this end now, the same number on the
        other end when you find it. Print strips under Labels, or write them by hand. A second copy of a strip puts one
        number on two cables: what this phone printed before is named first.
      </p>
      <ol class="help-steps">
        <li>
          Say <strong>No label</strong> at the jack. Where you may touch, the next number is offered:{' '}
          <CableLabel text="U-017" />. One tap when it is on.
        </li>
        <li>
          With a strip, read its label right after <strong>No label</strong>: it goes on that jack, not on the next one.{' '}
          <strong>Undo</strong> takes it off again.
        </li>
        <li>
          At any other jack read or type <CableLabel text="U-017" />: the answer names the first end, and both are known
          then.
        </li>
        <li>
          <strong>Not now</strong> holds for that jack until the walk is resumed. <strong>More, Twins</strong> lists the
          numbers whose other end is still wanted and the plugs that have no number yet, nearest first.
        </li>
      </ol>
      <p>
        Where the jacket can be read, <strong>More, Jacket and metre mark</strong> finds the other end without touching:
        write down the text and the running number at each end. Two ends of one text are shown as{' '}
        <strong>probable</strong>, with the length between their numbers; a third end of that text leaves it open. It is
        an estimate and joins nothing: put a twin on both, or follow the cable.
      </p>
      <p>
        The phone that began the first audit counts up from <CableLabel text="U-001" />; every other one begins far from
        it, at a block of five digits of its own, so that phones that never met hardly ever give the same number. With a
        printed strip, say under <strong>More, Twins</strong> where it begins: then its numbers come next. One number
        given by two phones is two cables, until somebody follows the cable from one place to the other: the list says
        by whom and when, and whose number to change. Search shows both.
      </p>
    </div>
  );
}

export function Building() {
  return (
    <div class="desk-part">
      <ol class="help-steps">
        <li>
          Begin an audit with the occasion <strong>Build</strong>. Where a plug may be moved, the big cell lands the
          planned cable and records it in one tap.
        </li>
        <li>
          <strong>More, Work on this end</strong>: pulled, landed, labelled, tested. A test that failed keeps the
          tester’s words until one passes.
        </li>
        <li>
          What goes elsewhere than planned is asked about once: on purpose, with its reason and, for a lash-up, until
          when.
        </li>
        <li>
          <strong>More, What is left to build</strong>: the ends that want something, nearest first, and every lash-up.
        </li>
      </ol>
      <p>
        The app says what is written and what was seen. It never says that something may be plugged: local codes,
        permits of the premises and licensed trades come first.
      </p>
    </div>
  );
}
