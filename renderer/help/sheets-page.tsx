/** How to take figures to the bench: build sheet, true-size strips, fixture sheet. */

import type { HelpPage } from './help-page.ts';

export const SHEETS: HelpPage = {
  id: 'sheets',
  title: 'Take it to the bench on paper',
  body: (
    <>
      <p>
        <strong>Sheets</strong> is in the menu on the header's name. What you see there, page by page, is what prints.
        Latin, Greek and Cyrillic letters print; where another letter cannot, � stands in its place, and the preview
        names the letter. Save the PDF and print it from your viewer.
      </p>
      <h2>Build sheet</h2>
      <p>
        For each primary its pieces in order. The outside arc is what a tape laid along the outside of the bend reads.
        The mark is how far round the tube, from the port-up line, the inside of the bend lies, clockwise as seen from
        the port. The port-up line is a line scribed along the tube, over its bends, from the top of the port.
      </p>
      <h2>True-size strips</h2>
      <ol>
        <li>Choose the strip, and for a cope or a merge type its figures.</li>
        <li>
          Print at 100 %, not fitted to the page, and measure both rules on the page: 100 mm and 4 in. If they are off,
          the printer has scaled the page.
        </li>
        <li>Cut along the edges. Where a strip is in parts, lay them over each other line on line, and tape them.</li>
        <li>
          Wrap it round the tube printed side out, edge to edge, and mark along its thick lines: cuts and joints, or on
          a clocking strip the inside of the bend.
        </li>
      </ol>
      <p>
        A cope can be cut to the branch's inside, where the bore meets the run, or to its outside. SVG and DXF files are
        for plotters and cutters; take the DXF with chords if a program leaves the curves out.
      </p>
      <h2>Fixture sheet</h2>
      <p>
        Lay the header flange down, collector down, or on two ports and an inlet, and every joint has its place on the
        bench, its height, and the height of the underside of the tube for a post. The plan prints to scale, or in true
        size in parts that are taped together.
      </p>
    </>
  ),
};
