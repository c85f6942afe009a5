/** Help for the shape of a header: ports, clocking, closure, clearance, tables and the other bank. */

import { lazy, Suspense } from 'react';
import type { HelpPage } from './help-page.ts';

/** What draws the header in space is fetched when a picture is first asked for. */
const Pictures = lazy(async () => ({ default: (await import('./shape-pictures.tsx')).ShapePictures }));

function Picture({ which }: { readonly which: 'ports' | 'clocking' | 'views' }) {
  return (
    <Suspense fallback={<p aria-busy="true">Drawing …</p>}>
      <Pictures which={which} />
    </Suspense>
  );
}

function PortsAndClocking() {
  return (
    <>
      <h2>Ports and inlets</h2>
      <p>
        Lengths need none of this. To see where the tubes run, say where each port is: its place, the direction out of
        the head, and what counts as up. A row of ports with one spacing is entered at once. An inlet is where a primary
        must end: a measured place, or wherever another primary ends. How far the tube may sit deeper or shallower in it
        is its slip.
      </p>
      <Picture which="ports" />
      <h2>Clocking</h2>
      <p>
        Clocking is the turn of a bend's plane about the tube, seen along the way from the port. 0 curls on as the bend
        before it did, clockwise is positive, 180 reverses. The first bend is clocked from the port's up.
      </p>
      <Picture which="clocking" />
      <p>
        Choose a bend and turn the dial, type the figure, read an angle gauge before and after the bend, or measure how
        far apart two marks lie round the tube. Where a clocking was not measured, the tube is drawn only up to that
        bend, and a note under the picture says so.
      </p>
    </>
  );
}

function ClosureAndClearance() {
  return (
    <>
      <h2>Closure</h2>
      <p>
        Closure compares where a primary ends with its inlet: how far short or deep, how far to the side, how many
        degrees off. What still counts as closed follows the tolerance and the inlets' slip until you set it. Where one
        joint would explain the miss, the panel names it and how far to turn it.
      </p>
      <h2>Clearance and obstacles</h2>
      <p>
        Clearance is the least gap between the outsides of two tubes, of a tube with itself, and of a tube with an
        obstacle: a box, a cylinder or a plane that you enter. Type the minimum clearance, and every gap under it is
        listed, the smallest first. Tubes meet at a collector on purpose: over their last four diameters before it, for
        as long as they stay together, they may be nearer. That gap comes last and is not counted; if the same two come
        too near anywhere else, they are listed for that. Metal moves when it is hot and engines rock on their mounts:
        leave room for both.
      </p>
    </>
  );
}

export const SHAPE: HelpPage = {
  id: 'shape',
  title: 'Lay the header out in space',
  body: (
    <>
      <p>The stage shows the header in space. The rail on the left opens a panel for each of these jobs beside it.</p>
      <Picture which="views" />
      <PortsAndClocking />
      <ClosureAndClearance />
      <h2>Tables</h2>
      <p>
        A primary can be written as a table for a bender: LRA gives the straight before each bend, the rotation and the
        bend angle; XYZ gives the points where the straights would meet. Either can be copied, saved as CSV, or read in,
        which takes the place of all pieces of the primary and can be undone.
      </p>
      <h2>Other bank</h2>
      <p>
        Primaries can be mirrored across a plane, as copies or where they stand; mirroring changes the sign of every
        clocking. Two primaries can also be compared piece by piece, the second one mirrored or not.
      </p>
    </>
  ),
};
