/** Help for everything around the bench: the shelf, finishing, files, backups, and when something is wrong. */

import { PARTS_COLUMNS, STOCK_COLUMNS } from '../../core/index.ts';
import type { HelpPage } from './help-page.ts';

function Columns({ names }: { readonly names: readonly string[] }) {
  return (
    <p>
      <code>{names.join(', ')}</code>
    </p>
  );
}

const SHELF: HelpPage = {
  id: 'shelf',
  title: 'Keep count of bends and straights',
  body: (
    <>
      <p>
        On the Shelf, fill in the first row and press Enter. Tube, CLR and legs stay for the next line, so a run of
        bends takes an angle each; 90 x4 is four of them. Every cell can be typed over, and cells copied in a
        spreadsheet can be pasted. A wall may be typed as a tube gauge, such as 16 ga.
      </p>
      <p>
        Counts are the sum of what came and went. Alt+Enter, or the button in the row, shows why a count is what it is.
        Every step can be taken back, also after a restart; a row that is removed stays in the book. A row with fewer
        than its least count is marked low.
      </p>
      <p>
        Legs are the straight parts formed on the two ends of a bend. While you enter a primary, the bench offers the
        angles, CLRs and legs that the shelf has for its tube, and says what the shelf lacks. Tables, Needs shows what
        the header needs in all, against the shelf.
      </p>
      <p>
        Cut plan, in the menu on the header's name, says which stock each planned piece is cut from, where to put the
        saw, what to keep, and what is short. Mark as cut takes the stock off the shelf, puts the remnants on it and
        marks the pieces cut, as one step. Undo on the bench or on the shelf, or Take back beside the list, takes all of
        it back, unless a remnant was used or a piece was changed since. The list stays with its header and prints.
      </p>
    </>
  ),
};

const FINISH: HelpPage = {
  id: 'finish',
  title: 'Finish a header, and build the next one like it',
  body: (
    <>
      <p>
        When a header is welded and checked, finish it. Its document, figures, readings, cut plans and pictures go into
        the archive under one checksum and never change again; the database itself refuses it. Should something be
        altered on disk all the same, opening the header says so, and the archive marks it.
      </p>
      <p>
        In the archive, search by words, material, tube OD, number of primaries, target, spread, and the days between
        which it was finished. The list follows as you type. "Open as new" makes a header of planned pieces; under More
        it opens mirrored as well, for the other side of the vehicle, with ports, inlets and obstacles on that side.
      </p>
      <p>
        "Similar headers", in the menu on the header's name and under More, puts those first that are most like it. A
        tube one size (1/8 in) off counts as much as one primary more or fewer, as a wall 1 mm off, as another material,
        or as a target 5 % off. "Compare" shows two side by side: their figures, each primary's length, and both shapes
        at one scale. Print prints it.
      </p>
      <p>
        "Shop figures", on the archive, draws over time which spread was reached, how many joints were opened again, and
        how much tube was left on the shelf. A joint counts as opened when it was marked tacked or welded and a step
        changed, turned, moved or took out a piece at it; undo takes the count back with the step.
      </p>
      <h2>Pictures</h2>
      <p>
        Pictures, on the rail of the bench, takes up to twelve for a header: press Add pictures, or drop files on the
        panel. They are made smaller (1600 pixels at the longest side), turned upright, and saved at once; what a camera
        notes beside the picture, such as the place, is left out. Undo does not reach pictures: a removed one is put
        back from the line that says so. A copy of a header starts without pictures.
      </p>
      <h2>Take finished headers elsewhere</h2>
      <p>
        Export, in the archive, writes finished headers into an open text file: JSON, a line for each header, with its
        pictures and its checksum. Bring back, on another computer, checks every line against its checksum. A header
        that is there already is not brought in twice, not even from the bin; another one that happens to have its id
        comes in beside it; a line that was damaged is named, and the rest comes in. Either can be stopped at any time:
        what came in until then is whole.
      </p>
    </>
  ),
};

const FILES: HelpPage = {
  id: 'files',
  title: 'Bring files in and take them out',
  body: (
    <>
      <p>
        Exporting a header writes its document as one open JSON file; pictures and cut plans go with finished headers
        only, by Export in the archive. Importing shows what is in a file first; nothing comes in until you accept it,
        and no header that is there is ever overwritten. A file can also be dropped on the window.
      </p>
      <h2>Parts list</h2>
      <p>A CSV file, one piece a row, in order from the port. The first row names the columns, in any order:</p>
      <Columns names={PARTS_COLUMNS} />
      <h2>Stock list</h2>
      <p>A CSV file, one bend or straight a row. The first row names the columns:</p>
      <Columns names={STOCK_COLUMNS} />
      <p>
        A line that is on the shelf already, alike in all but its count, cost and least count, gives the shelf those;
        all other lines are added. What is not in the list stays on the shelf. So a list can be exported, counted over
        in a spreadsheet and imported again.
      </p>
      <p>
        Rows that cannot be read are listed with their line and the reason before you decide. Lengths without a unit are
        taken in the unit over their column, as in OD (mm) or CLR inches, else in the one that you choose there.
      </p>
    </>
  ),
};

const SAFE: HelpPage = {
  id: 'safe-keeping',
  title: 'Saving and backups',
  body: (
    <>
      <p>
        There is no Save button. Every entry goes to disk as you make it, and "All saved" is shown only after it is
        there. Text that you have typed but not accepted is kept as well and stands in its line after a restart.
      </p>
      <p>
        Backups are made on their own: soon after the start, every hour and at closing, whenever something was entered
        since the last. The newest ten are kept, and one of each of the last eight days. Under Commands, "Backups" lists
        them; restoring one sets the present file aside first. Keep the data folder on a disk of this computer, not in a
        folder that is synchronised.
      </p>
      <p>
        Now and then, back up everything to a file on another disk: under Commands, "Back up everything to a file". The
        file is opened and every header in it read before the program says that it is done. "Restore everything from a
        file" proves such a file in the same way, asks, and sets what is here aside among the backups before it takes
        its place.
      </p>
    </>
  ),
};

const TROUBLE: HelpPage = {
  id: 'trouble',
  title: 'When something is wrong',
  body: (
    <>
      <h2>"Not saved"</h2>
      <p>
        The reason stands beside it: most often the disk is full or may not be written to. Fix that and press "Try
        again". What you see on screen is kept and sent again on its own. Do not close the window before it says "All
        saved".
      </p>
      <h2>"Changed in another window"</h2>
      <p>
        Two windows changed the same header. Both versions are shown and nothing has been overwritten: reapply your
        changes to theirs, take theirs, or save yours as a copy.
      </p>
      <h2>"Your headers could not be opened"</h2>
      <p>
        The screen says what happened to the file and offers the backups. The file itself is left alone; restoring a
        backup sets it aside.
      </p>
      <h2>"You can look at your headers and export them"</h2>
      <p>
        The disk is full, or the file or its folder may not be written to. Everything that was saved is shown and can be
        exported. Fix what the line says and press "Try again".
      </p>
      <h2>"This page does not belong to the Evenrun that runs now"</h2>
      <p>
        In a browser, only the address that Evenrun printed at its last start leads to your headers, and only all of it.
        Open it again; if it cannot be found, end Evenrun and start it anew.
      </p>
    </>
  ),
};

export const KEEPING_PAGES: readonly HelpPage[] = [SHELF, FINISH, FILES, SAFE, TROUBLE];
