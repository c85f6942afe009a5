/** The public face of the domain: everything that a program outside `core` may count on. None of it throws on bad data. */

// Header
export { describeProblem } from './describe-problem.ts';
export { applyCheckedEdit, applyEdit, applyEdits, type Step } from './edits/apply-edit.ts';
export { describeEdit } from './edits/describe-edit.ts';
export type { BatchEdit, Edit, HeaderFields, PrimaryFields, SingleEdit } from './edits/edit.ts';
export {
  addPiecesEdit,
  duplicatePieceEdit,
  markPiecesEdit,
  removeCollectorEdit,
  removePiecesEdit,
  removePrimaryEdit,
} from './edits/edit-lists.ts';
export { editSchema } from './edits/edit-schema.ts';
export { demoHeader } from './header/demo-header.ts';
export { placeWords } from './header/describe-path.ts';
export { checkHeader } from './header/file/check-header.ts';
export {
  HEADER_FILE_EXTENSION,
  HEADER_FORMAT,
  HEADER_FORMAT_VERSION,
  readHeader,
  readHeaderBytes,
  writeHeader,
} from './header/file/header-file.ts';
export * from './header/header.ts';
export type { EntryFault, HeaderProblem, ProblemPath } from './header/header-problem.ts';
export { copyHeader, DEFAULT_SETTINGS, newHeader, newId } from './header/new-header.ts';
export { PARTS_COLUMNS, partsRows, type ReadParts, type RefusedRow, readPartsRows } from './header/parts/parts-rows.ts';
export { copiedPieces, type PastedPieces, readPastedPieces } from './header/parts/pasted-pieces.ts';
export {
  type EntryProblem,
  formatQuickEntry,
  parseBendAngle,
  parseClocking,
  parseClr,
  parseQuickEntry,
  pieceFromQuick,
  type QuickContext,
  type QuickPiece,
  shapeOf,
} from './header/parts/quick-entry.ts';
export { referenceProblems } from './header/references.ts';
export {
  headerSchema,
  idSchema,
  lengthStyleSchema,
  nameSchema,
  primarySchema,
  textSchema,
} from './header/schema.ts';
// Lengths
export {
  angleFromChord,
  angleFromInsideArc,
  angleFromOutsideArc,
  bendFromChordAndHeight,
} from './length/angle-from-tape.ts';
export {
  type BendShapeMm,
  centrelineArcMm,
  chordMm,
  circumferenceMm,
  gainMm,
  heightMm,
  insideArcMm,
  outsideArcMm,
  setbackMm,
} from './length/bend-arcs.ts';
export type { BendMeasure, LengthProblem } from './length/length-problem.ts';
export {
  BAND_SLACK_MM,
  type MatchReport,
  matchHeader,
  type PrimaryMatch,
  type Verdict,
  verdictOf,
} from './length/match-header.ts';
export {
  cutBackMm,
  heelMm,
  type PieCutMm,
  pieChordMm,
  pieCutLengthMm,
  sawAngleDeg,
  throatMm,
} from './length/pie-cut.ts';
export { asWeldedLength, pieceLength, primaryLength } from './length/piece-length.ts';
export {
  MOVE_KINDS,
  type Move,
  type MoveChange,
  type MoveCost,
  type MoveKind,
  type MoveOptions,
  type MoveOutcome,
  type NearestMiss,
  type NoMoveReason,
  type Standing,
  type StockNeed,
  type ToFree,
} from './moves/move.ts';
export {
  type HeaderMovesOutcome,
  type HeaderPlan,
  type PrimaryPlan,
  suggestHeaderMoves,
} from './moves/suggest-header-moves.ts';
export { suggestMoves } from './moves/suggest-moves.ts';
// Moves
export { describeMove, describeMoveChange } from './moves/words/describe-move.ts';
export { describeNearest, describeNoMoves, describeStanding, describeToFree } from './moves/words/describe-outcome.ts';
// Paths
export { alignPieces, type PiecePairing } from './path/banks/align-pieces.ts';
export { type BankPair, compareBanks } from './path/banks/compare-banks.ts';
export {
  type CompareOptions,
  type Comparison,
  comparePrimaries,
  type DifferenceKind,
  type PieceDifference,
} from './path/banks/compare-primaries.ts';
export {
  type CopyNames,
  type MirrorPlane,
  mirrorBank,
  mirroredCopy,
  mirrorPiece,
  mirrorPrimary,
  VEHICLE_MIDDLE,
} from './path/banks/mirror.ts';
export {
  bodyClearance,
  type Clearance,
  clearanceBetween,
  SELF_TURN_DEG,
  selfClearance,
  type TubeBody,
  tubeBody,
} from './path/clearance/clearance.ts';
export {
  type HeaderClearances,
  type HeaderGap,
  headerClearances,
  type ObstacleGap,
  type PairGap,
  type SelfGap,
} from './path/clearance/header-clearances.ts';
export { type ObstacleClearance, obstacleClearance } from './path/clearance/obstacle-clearance.ts';
export {
  clockingFromGauge,
  clockingFromMark,
  clockingMarkMm,
  type GaugeReadings,
  type LookingFrom,
} from './path/ends/clocking-gauge.ts';
export { type Closure, type ClosureLimits, closureOf, isClosed } from './path/ends/closure.ts';
export {
  closureLimits,
  collectorOf,
  findInlet,
  inletFrame,
  placedPath,
  primaryClosure,
} from './path/ends/inlet-pose.ts';
export { type InletLayout, type InletPattern, inletPoses, type PortRow, portRow } from './path/ends/port-row.ts';
export { type JointTurn, jointTurnsToInlet, singleJointTurns } from './path/ends/single-joint.ts';
export {
  bendCentre,
  binormalOf,
  clockBy,
  DEFAULT_PORT,
  type Frame,
  frameOfPose,
  goRound,
  goStraight,
  placeOfVector,
  poseOfFrame,
  unitDirection,
  vectorOfPlace,
} from './path/frame.ts';
export type { PathProblem, PieceRef, PoseProblem, TableProblem } from './path/path-problem.ts';
export {
  type LraRow,
  type LraTable,
  TABLE_POINTS_LIMIT,
  TABLE_ROWS_LIMIT,
  type TableNote,
  type XyzPoint,
  type XyzTable,
} from './path/tables/bending-table.ts';
export { fromXyz, type TubeFromXyz } from './path/tables/from-xyz.ts';
export { fromLra, toLra } from './path/tables/lra.ts';
export { lraCsv, readLraCsv, readXyzCsv, xyzCsv } from './path/tables/table-csv.ts';
export { LARGEST_POINT_DEG, toXyz } from './path/tables/to-xyz.ts';
export {
  type ArcSpan,
  type LineSpan,
  type PartialPath,
  pathLengthMm,
  pointAt,
  type Span,
  type TubePath,
  traceAsFarAsKnown,
  traceFrom,
  tracePrimary,
} from './path/trace-primary.ts';
export {
  add,
  addScaled,
  cross,
  distance,
  dot,
  magnitude,
  scale,
  squareTo,
  subtract,
  unit,
  type Vector,
  wrapDeg,
} from './path/vector.ts';
export type { Problem } from './problem.ts';
export { assertNever, failure, type Result, success } from './result.ts';
// Spreadsheets
export { readCsvRows } from './spreadsheet/read-rows.ts';
export { clipboardText, csvText } from './spreadsheet/write-rows.ts';
// Stock
export { type ReadStock, type RefusedStockRow, readStockRows } from './stock/read-stock-rows.ts';
export { stockItemSchema } from './stock/schema.ts';
export { type SheetGaugeSystem, sheetThickness } from './stock/sheet-gauges.ts';
export { clrsOnShelf, isOfTube, SAME_SIZE_MM, type ShelfMatch, shelfMatch } from './stock/shelf-match.ts';
export { STOCK_COLUMNS, type StockColumn } from './stock/stock-columns.ts';
export type { StockBend, StockItem, StockStraight } from './stock/stock-item.ts';
export type { StockProblem } from './stock/stock-problem.ts';
export { stockRows } from './stock/stock-rows.ts';
export {
  BWG_WALLS,
  bwgWall,
  type GaugeWall,
  massPerMetreKg,
  PIPE_SIZES,
  type PipeSize,
  pipeOd,
} from './stock/tube-sizes.ts';
export type { StorageFault, StorageProblem } from './storage-problem.ts';
// Units
export { degreesOf, radiansOf } from './units/angle.ts';
export { formatAngle, formatAngleBare } from './units/format-angle.ts';
export { formatDeviation, formatFeetInches, formatLength, formatLengthBare } from './units/format-length.ts';
export { formatTyped, formatTypedAngle } from './units/format-typed.ts';
export { inches, type Length, type LengthUnit, MM_PER_INCH, millimetres, mmOf } from './units/length.ts';
export { type LengthStyle, unitOf } from './units/length-style.ts';
export { parseAngle } from './units/parse-angle.ts';
export { parseLength, parseSignedLength } from './units/parse-length.ts';
export type { UnitsProblem } from './units/units-problem.ts';
