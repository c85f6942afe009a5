/** Help for the work on the bench: entering pieces, reading the board, targets, odd pieces, changing things. */

import { demoHeader } from '../../core/index.ts';
import { EntryFormsTable } from '../ui/entry-forms-table.tsx';
import { StripPreview, stripsOf } from '../ui/strip-preview.tsx';
import type { HelpPage } from './help-page.ts';

const demoStrips = stripsOf(demoHeader('help'));

const ENTER: HelpPage = {
  id: 'enter',
  title: 'Enter a primary as you tack it',
  body: (
    <>
      <p>
        Choose the primary, then type each piece on the line under its pieces and press Enter. The line is ready for the
        next one at once. Order is from the port's flange face to the collector.
      </p>
      <EntryFormsTable />
      <p>
        Under the line stands what Enter will do: the pieces, the new total, and how far it is from the target. What
        looks like a slip, such as a bend of 360 degrees, is said there too, and can still be entered.
      </p>
      <p>
        Lengths can be 2 3/4, 2-3/4, 2.75, 70 mm or 1' 2 1/2". Where your computer's language writes 2,5 for two and a
        half, a comma is read so. If something cannot be read, the line says what and why, and what you typed stays
        there.
      </p>
      <p>
        Rows copied from a spreadsheet can be pasted into the line or onto the pieces. The keypad, opened with "Keypad",
        types into the line or into the cell you tapped last.
      </p>
      <p>
        Clocking is the turn of a bend's plane about the tube, seen along the way from the port, clockwise being
        positive. 0 curls on the same way; 180 reverses. Leave it out where you have not measured it.
      </p>
    </>
  ),
};

const READ: HelpPage = {
  id: 'read',
  title: 'See which primary is short',
  body: (
    <>
      <StripPreview primaries={demoStrips} title="The strips of the demo header" />
      <p>
        The board has a row for each primary. Its pieces are drawn in small: plain for straights, hatched for bends; the
        row in hand shows them whole. The bar beside them goes from the target to where the tube ends, all bars on one
        scale. The shaded strip is the tolerance band.
      </p>
      <p>
        A bar to the left means short, to the right long. A mark, a word and the figure stand at its end, so nothing
        depends on colour. OK means within the band, its edges included. An arrow means that the end is off the scale;
        the figure still holds.
      </p>
      <p>
        A hollow bar belongs to a primary that is still being built: a piece is only planned, its end is short of its
        inlet by more than the shortest straight, or, without an inlet, more than a tenth of the target is to go. It
        says how much there is to go and has no verdict. Nor has the primary that sets the length. While that one is
        being built, none is judged. A finished header counts as built.
      </p>
      <p>
        While a primary in hand is being built, the line over its pieces says where the inlet lies as seen along the
        tube from its end: so far ahead or behind, so far aside and at which clocking a bend would curl that way, and
        the tilt between the two. If one piece or two would finish it, they stand there as you would type them: Alt+I
        puts them in as planned pieces.
      </p>
      <p>
        Double-click a row to rename it, drag it by its name to move it, and find the rest under the three dots. "As
        listed" over the names changes to "By miss": the farthest off first.
      </p>
      <p>Lengths are centreline lengths: the straights, and for each bend its CLR times its angle.</p>
    </>
  ),
};

const TARGET: HelpPage = {
  id: 'target',
  title: 'Set the target, tolerance and weld shrinkage',
  body: (
    <>
      <p>
        Open Settings on the rail. The target is the longest primary, one primary that you choose, a length that you
        type, or the mean of all. The tolerance says how far below and above the target is accepted.
      </p>
      <p>
        Shrinkage per weld takes that much off at every joint between pieces, to show the length after welding. It is
        off until you type one: measure it on a joint of your own, as it depends on tube, gap, heat and hand.
      </p>
      <p>
        The unit that lengths are shown in can be changed at any time. The program keeps what you typed; only what is
        shown is rounded.
      </p>
    </>
  ),
};

const ODD: HelpPage = {
  id: 'odd-pieces',
  title: 'Find the angle of an odd piece with a tape',
  body: (
    <>
      <p>
        Choose the bend, then "Angle by tape". Lay the tape along the outside of the bend, along the inside, or straight
        from end to end at the centreline, and type what it reads. The angle goes into the piece.
      </p>
      <p>
        Measure only the bent part: a leg that is taken with it makes the angle too large. The outside arc is the surest
        of the three; the chord tells little near half a circle.
      </p>
    </>
  ),
};

const CHANGE: HelpPage = {
  id: 'change',
  title: 'Change, move and take back pieces',
  body: (
    <>
      <p>
        Go up into the pieces with the arrow key and type over a cell, or press Enter to edit what is there. A letter in
        front of the size changes the kind: b90 makes a bend of 90 degrees, s4 a straight of 4. A size that is finer
        than the fineness shown is underlined with dots and shown as fine as it is cut; one with ≈ in front is rounded.
      </p>
      <p>
        Select several pieces with Shift and an arrow, Shift and a click, Ctrl and a click, or by drawing over their
        rows. Then delete, duplicate, copy or move them, or mark them, all at once. Drag a row by its number to move it.
        The right mouse button, the menu key or a long press opens a menu with all of this.
      </p>
      <p>
        Each piece is planned, cut, tacked or welded; new pieces are tacked. In the State column type P, C, T or W, or
        press Space for the menu. A copy of a welded piece is planned. A locked piece is one that moves leave alone. A
        note of a piece is typed under its row: press N.
      </p>
      <p>
        Undo names what it takes back and has no end; it works across restarts. Nothing has to be confirmed except
        finishing a header.
      </p>
    </>
  ),
};

const MOVES: HelpPage = {
  id: 'moves',
  title: 'Fix a primary that is short or long',
  body: (
    <>
      <p>
        Choose the primary and open "Moves". Each row is one way to bring it to length with the port end and the
        collector end left where they are, the least work first. If the end misses its inlet, that is said above the
        list, and the moves close it too.
      </p>
      <p>
        Go to a row to preview it on the board, on the stage and in the pieces. Space shows the header as it is now, and
        Space again as it would be. Nothing is changed until you press Enter or Apply. Then it is one step, and one undo
        takes it back.
      </p>
      <p>
        Figures are rounded to what a saw can cut, and the result is that of the rounded cuts. "Joints" counts the
        joints to make: those opened and made again, and those of what is added. Welded and locked pieces are left
        alone: L locks or unlocks a piece.
      </p>
      <p>
        "Fix all" takes the best move for every primary that is short or long, and says when another target takes fewer
        joints. "Limits" sets the most joints, the shortest straight, the minimum clearance, and whether the shelf
        counts. When there is no move, the panel says why and what to unlock or cut.
      </p>
      <p>
        Under "Limits", "Rank moves by" takes the shop's own minutes or money in place of the order of new bends,
        joints, cuts and tube: type what a joint, a saw cut, a bend added, a length of tube and a piece to order cost
        you. The price then stands beside each move, and the prices are kept for the next header.
      </p>
    </>
  ),
};

const PROPOSE: HelpPage = {
  id: 'propose',
  title: 'Have a primary proposed, or all of them',
  body: (
    <>
      <p>
        Choose a primary that has a port and an inlet and no pieces yet, and open "Moves": a few ideas are listed, each
        with its picture, the fewest bends first. The first is there at once, better ones come in while the search goes
        on; "Stop" keeps what was found. Of a primary that is half tacked, "The rest" is proposed from the last piece
        that is tacked, welded or locked.
      </p>
      <p>
        "Possible lengths" draws which lengths this port and inlet can have with two bends and with three. The upright
        line is the target, the small marks are the other primaries by number. Tap a length, or go to it with the arrow
        keys and press Enter, and it is the target: one step, and undo takes it back.
      </p>
      <p>
        "Build all" stands there while two primaries or more are left to build. It proposes all of them at one length,
        clear of each other: at the target, or at the length that takes the fewest bends. "Any of its collector" lets
        primaries change inlets within their collector, which often is what makes room. The answer is one step, with a
        row for each primary.
      </p>
      <p>
        Shortest straight, minimum clearance and whether the shelf counts are set under "Limits". Figures are such as a
        saw and an angle gauge can do, and every proposal is checked against all that stands there before it is shown.
      </p>
    </>
  ),
};

export const BENCH_PAGES: readonly HelpPage[] = [ENTER, READ, TARGET, MOVES, PROPOSE, ODD, CHANGE];
