/** Help for what comes off the bench: measuring what was built, finding the wrong entry, and what it means for the pulses. */

import type { HelpPage } from './help-page.ts';

export const AS_BUILT: HelpPage = {
  id: 'as-built',
  title: 'Check what was built',
  body: (
    <>
      <h2>Measure</h2>
      <p>
        Open As-built on the rail and type what you read on the finished tube: a tape along the outside, a string or
        wire down the middle, or how much water it holds. Type how far each may be out as well. Each is compared with
        the pieces along the way that it follows: a tape goes a longer way round a bend than a string does.
      </p>
      <p>
        Tube and pieces agree when they are no further apart than the reading and the shop’s tolerances allow together.
        Two methods tell more than one: a bend entered wrong is off by more on the outside than down the middle, a
        straight by the same.
      </p>
      <h2>Which entry may be wrong</h2>
      <p>
        Where they do not agree, every entry is put right in turn: 45 typed for 90, another CLR of the shelf, a step of
        the fraction, inches for millimetres, a piece missed or entered twice. What then fits everything that was
        measured is listed, the likeliest first, with how likely it is among all that fit. A port, an inlet and all
        clockings make the answer much surer, since the end of the tube is known to be in its inlet. Putting one right
        is a step like any other, and can be undone. No single entry means just that: look for two, or measure again.
      </p>
      <h2>Which joint to watch</h2>
      <p>
        One degree at a joint far from the end moves the end most. The panel says how far for every bend, and how far
        off the end comes out when every piece is made within the shop’s tolerances.
      </p>
      <h2>Pulses</h2>
      <p>
        Pulses on the rail shows when the pulse of each cylinder comes to its collector over two turns of the crank:
        with all lengths equal, and as they are. The cylinder of a primary is the number in its name. An engine that
        does not fire evenly is on the list too, or type its firing intervals: degrees of the crank from each cylinder
        of the firing order to the next and from the last back to the first, 720 in all, as in 315-405. Speed of sound
        follows from gas temperature, gamma and molar mass, which are yours to change. All of it is an estimate, to
        compare lengths by.
      </p>
      <h2>Tuned lengths</h2>
      <p>
        In Settings the target may be a tuned length. Each formula is named with its source, what it takes, and what it
        does not know. They do not agree with each other, and none is more than a place to start from.
      </p>
    </>
  ),
};
