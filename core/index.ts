/** The public face of the domain: everything that a program outside `core` may count on. None of it throws on bad data. */

// Archive
export {
  type Both,
  type ComparedFigure,
  type ComparedPrimary,
  compareHeaders,
  type HeaderAndPlans,
} from './archive/compare-headers.ts';
export { jointsOpened } from './archive/joints-opened.ts';
export { describeLikeness, type LikenessFigures, likenessDistance, likenessFigures } from './archive/likeness.ts';
// As-built
export { asBuilt, type MeasuredLength } from './asbuilt/as-built.ts';
export { METHOD_WORDS, readingSentence, readingVerdict } from './asbuilt/as-built-words.ts';
export { type EndReach, endReach, type JointReach } from './asbuilt/end-scatter.ts';
export { describeMisEntry } from './asbuilt/mis-entry/describe-mis-entry.ts';
export { findMisEntry, type MisEntryOutcome } from './asbuilt/mis-entry/find-mis-entry.ts';
export { boreMm } from './asbuilt/path-lengths.ts';
export { tolerancesOf, USUAL_TOLERANCES } from './asbuilt/shop-tolerances.ts';
export { parseVolume, volumeText } from './asbuilt/volume-text.ts';
// Header
export { describeProblem } from './describe-problem.ts';
export { applyCheckedEdit, applyEdit } from './edits/apply-edit.ts';
export { mirrorBank, mirroredCopy, mirrorPrimary } from './edits/bank-edits.ts';
export {
  addInletEdit,
  assignInletEdit,
  collectorPatternEdit,
  firstInletPose,
  removeInletEdit,
  replaceInletEdit,
  setSlipEdit,
} from './edits/collector-edits.ts';
export { describeEdit } from './edits/describe-edit.ts';
export type { Edit, SingleEdit } from './edits/edit.ts';
export { editSchema } from './edits/edit-schema.ts';
export {
  finishHeaderEdit,
  renameHeaderEdit,
  setClosureEdit,
  setEngineEdit,
  setNoteEdit,
  setSettingsEdit,
  setToleranceEdit,
  setTolerancesEdit,
  setTubeEdit,
} from './edits/header-edits.ts';
export { type Compared, mendEdit, reclockEdit } from './edits/mend-edits.ts';
export { addObstacleEdit, OBSTACLE_KINDS, removeObstacleEdit, replaceObstacleEdit } from './edits/obstacle-edits.ts';
export {
  addPiecesEdit,
  duplicatePiecesEdit,
  movePiecesEdit,
  pieceCopy,
  removePiecesEdit,
  replacePieceEdit,
  shiftPiecesEdit,
} from './edits/piece-edits.ts';
export { cutPiecesEdit, freeOffer, setLockedEdit, setStateEdit } from './edits/piece-state-edits.ts';
export { firstPort, portRowEdit, setPortEdit } from './edits/port-edits.ts';
export {
  addPartsEdit,
  addPrimariesEdit,
  addPrimaryEdit,
  duplicatePrimaryEdit,
  movePrimaryEdit,
  namesInHeader,
  removePrimaryEdit,
  renamePrimaryEdit,
  setMeasurementEdit,
} from './edits/primary-edits.ts';
export { type TableKind, tableEdit } from './edits/table-edits.ts';
// Gas
export { firingIntervalsDeg, formatFiringIntervals, parseFiringIntervals, withFiring } from './gas/firing-intervals.ts';
export { COMMON_ORDERS, formatFiringOrder, parseFiringOrder } from './gas/firing-order.ts';
export { type CollectorPulses, type Pulse, type PulseTiming, pulseTiming } from './gas/pulse-timing.ts';
export { parsePlainNumber, parseTemperature } from './gas/read-gas.ts';
export { speedOfSound } from './gas/sound.ts';
export {
  endCorrectionMm,
  TUNED_FORMULAS,
  type TunedFormulaEntry,
  type TunedInputName,
  type TunedLength,
  tunedBore,
  tunedLength,
} from './gas/tuned-length.ts';
export { tunedTarget } from './gas/tuned-target.ts';
export { engineOf, firstTunedInputs, soundOf } from './gas/usual-engine.ts';
export { wallThinning } from './gas/wall-thinning.ts';
export { demoHeader } from './header/demo-header.ts';
export { CYCLE_DEG, type Engine, type TunedFormula, type TunedInputs, type TunedSource } from './header/engine.ts';
export { checkHeader } from './header/file/check-header.ts';
export {
  exceedsFileSize,
  HEADER_FILE_EXTENSION,
  readHeader,
  readHeaderBytes,
  writeHeader,
} from './header/file/header-file.ts';
export {
  PICTURE_BYTES_LIMIT,
  PICTURE_SIDE_PX,
  PICTURES_LIMIT,
  type PictureType,
  pictureTypeOf,
} from './header/file/picture-file.ts';
export { readJson } from './header/file/read-json.ts';
export { safeFileName } from './header/file-name.ts';
export {
  type Bend,
  type Collector,
  type Direction,
  type Header,
  type Inlet,
  type Obstacle,
  PIECE_STATES,
  type PieCutBend,
  type Piece,
  type PieceState,
  type Place,
  type Pose,
  type Primary,
  type Settings,
  type Target,
  type Tube,
  tubeOf,
} from './header/header.ts';
export type { HeaderProblem, ProblemPath } from './header/header-problem.ts';
export {
  MEASURE_KINDS,
  type MeasureKind,
  type Measurement,
  type ShopTolerances,
  type Volume,
} from './header/measured.ts';
export { nameFromText, nameWithEnding, noteBelow, noteFromText, shortened, startOf } from './header/names.ts';
export { copyHeader, newHeader, newId, rebuiltHeader } from './header/new-header.ts';
export { describeEntryNote } from './header/parts/describe-entry-note.ts';
export { PARTS_COLUMNS, type RefusedRow, readPartsRows } from './header/parts/parts-rows.ts';
export { copiedPieces, readPastedPieces } from './header/parts/pasted-pieces.ts';
export {
  formatQuickEntry,
  parseBendAngle,
  parseClocking,
  parseClr,
  parseQuickEntry,
  parseStraightLength,
  pieceFromQuick,
} from './header/parts/quick-entry.ts';
export { lengthSchema } from './header/quantity-schema.ts';
export { headerSchema, idSchema, lengthStyleSchema, nameSchema, primarySchema, textSchema } from './header/schema.ts';
// Lengths
export { angleFromChord, angleFromInsideArc, angleFromOutsideArc } from './length/angle-from-tape.ts';
export { type Verdict, verdictOfDeviation } from './length/band.ts';
export { buildFigures } from './length/build-figures.ts';
export type { Building } from './length/building.ts';
export { bandWords, primaryTitle, rowWords, signedLength, verdictMark, verdictWords } from './length/describe-match.ts';
export { type MatchReport, matchHeader, type PrimaryMatch } from './length/match-header.ts';
export { pieceLength, primaryLength } from './length/piece-length.ts';
export { cutWords, pieceName } from './length/piece-words.ts';
export { type EntryReadBack, readBackEntry } from './length/read-back.ts';
export { isMean, roundTarget } from './length/target-choices.ts';
// Moves
export type { Move, MoveChange, StockNeed } from './moves/move.ts';
export type { MoveOutcome, Standing, ToFree } from './moves/outcome.ts';
export { MOVE_KINDS, type MoveKind, type MoveOptions } from './moves/question.ts';
export type { ShopPrices } from './moves/ranking/shop-prices.ts';
export { HeaderMoveSearch, type HeaderMovesOutcome, suggestHeaderMoves } from './moves/suggest-header-moves.ts';
export { MoveSearch, suggestMoves } from './moves/suggest-moves.ts';
export type { HeaderPlan, PrimaryPlan } from './moves/whole/header-plan.ts';
export { describeMove } from './moves/words/describe-move.ts';
export { describeNearest, describeNoMoves, describeStanding, describeToFree } from './moves/words/describe-outcome.ts';
export { describeWrongPiece } from './moves/words/describe-wrong-piece.ts';
export { wrongPieces } from './moves/wrong-piece.ts';
// Paths
export { type BankPair, compareBanks } from './path/banks/compare-banks.ts';
export { comparePrimaries, type PieceDifference } from './path/banks/compare-primaries.ts';
export type { MirrorPlane } from './path/banks/mirror.ts';
export { mirroredHeader } from './path/banks/mirrored-header.ts';
export { centrePoints } from './path/centre-points.ts';
export { clearanceBetween } from './path/clearance/clearance.ts';
export { formatGap } from './path/clearance/format-gap.ts';
export {
  gapsInOrder,
  type HeaderClearances,
  type HeaderGap,
  headerClearances,
} from './path/clearance/header-clearances.ts';
export { clockingFromGauge, clockingFromMark, clockingMarkMm, type LookingFrom } from './path/ends/clocking-gauge.ts';
export { type Closure, closureOf, isClosed } from './path/ends/closure.ts';
export { closedWords, closureWords } from './path/ends/closure-words.ts';
export {
  DIRECTIONS,
  type DirectionWord,
  directionWord,
  formatDirection,
  parseDirection,
  upFor,
} from './path/ends/direction-text.ts';
export { closureLimits, collectorOf, findInlet, inletFrame, primaryClosure } from './path/ends/inlet-pose.ts';
export type { InletPattern } from './path/ends/port-row.ts';
export { explainsMiss, isWorthTurning, type JointTurn, jointTurnsToInlet } from './path/ends/single-joint.ts';
export {
  binormalOf,
  clockBy,
  DEFAULT_PORT,
  type Frame,
  frameOfPose,
  unitDirection,
  vectorOfPlace,
} from './path/frame.ts';
export type { TableNote } from './path/tables/bending-table.ts';
export { fromXyz } from './path/tables/from-xyz.ts';
export { fromLra, toLra } from './path/tables/lra.ts';
export { lraCsv, xyzCsv } from './path/tables/table-csv.ts';
export { toXyz } from './path/tables/to-xyz.ts';
export {
  type ArcSpan,
  type LineSpan,
  type PartialPath,
  pointAt,
  type Span,
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
// Proposals
export { describeLengthRanges, describeNoProposal } from './propose/describe-proposals.ts';
export { type Finish, finishPrimary } from './propose/finish-primary.ts';
export type { LengthRange, ProposalOutcome, ProposedPrimary } from './propose/outcome.ts';
export { ProposalSearch, proposePrimaries } from './propose/propose-primaries.ts';
export type { ProposeOptions } from './propose/question.ts';
export { type ReachableLengths, type ReachOutcome, ReachSearch } from './propose/reach/reachable-lengths.ts';
export { toGoWords } from './propose/to-go-words.ts';
export { describeNoHeader, describeProgress } from './propose/whole/describe-header.ts';
export type {
  HeaderProgress,
  HeaderProposal,
  HeaderProposalOutcome,
  HeaderProposeOptions,
} from './propose/whole/header-outcome.ts';
export { HeaderProposalSearch, proposeHeader } from './propose/whole/propose-header.ts';
export { assertNever, failure, type Result, success } from './result.ts';
// Sheets
export { type BuildSheet, buildSheet, type SheetPrimary } from './sheet/build-sheet.ts';
export { CAUTIONS, CAUTIONS_FIRST } from './sheet/cautions.ts';
export { type BenchAsked, benchAskedSchema } from './sheet/fixture/bench-plane.ts';
export { type FixturePlace, type FixtureSheet, fixtureSheet } from './sheet/fixture/fixture-sheet.ts';
export { type FlatPiece, type FlatPoint, type FlatTube, type FlatView, flatViews } from './sheet/flat-views.ts';
export type { SheetRow } from './sheet/sheet-rows.ts';
export { arcRuns } from './sheet/strips/arc-runs.ts';
export { makeStrips, type StripsAsked, stripsAskedSchema } from './sheet/strips/make-strips.ts';
export type { Strip, StripLabel, StripLine, StripPoint } from './sheet/strips/strip.ts';
export { stripTooLarge } from './sheet/strips/strip-size.ts';
// Spreadsheets
export { readCsvRows, readPastedRows } from './spreadsheet/read-rows.ts';
export { clipboardText, csvText } from './spreadsheet/write-rows.ts';
// Stock
export { compareWithShelf, type ListedStock } from './stock/csv/compare-with-shelf.ts';
export { readStockRows } from './stock/csv/read-stock-rows.ts';
export { STOCK_COLUMNS, type StockColumn } from './stock/csv/stock-columns.ts';
export { describeStockReading, type StockReading, stockReadingSchema } from './stock/csv/stock-reading.ts';
export { stockRows } from './stock/csv/stock-rows.ts';
export { demoShelf } from './stock/demo-shelf.ts';
export { type HeaderNeed, headerNeeds } from './stock/header-needs.ts';
export { describeShelfStep } from './stock/ledger/describe-shelf-step.ts';
export { enterChanges } from './stock/ledger/enter-changes.ts';
export {
  MOVEMENT_REASONS,
  type MovementReason,
  type ShelfChange,
  shelfChangeSchema,
} from './stock/ledger/shelf-change.ts';
export type { FindRow, ShelfRow, ShelfStep } from './stock/ledger/shelf-row.ts';
export { doAgain, type KeptRow, keptRows, takeBack } from './stock/ledger/turn-back.ts';
export { carryOut, type KnownStock } from './stock/plan/carry-out.ts';
export { type CutPlan, type CutStock, isProvenLeast, type Stretch } from './stock/plan/cut-plan.ts';
export type { CutProblem, SawSettings, StockRow } from './stock/plan/cut-problem.ts';
export { cutPieceId, cutProblemOf } from './stock/plan/from-shelf.ts';
export { type KeptPlan, keptPlan, keptPlanSchema, type PlacedPiece, placedPieces } from './stock/plan/kept-plan.ts';
export type { MilpAnswer, MilpAsk, MilpModel, SolveMilp } from './stock/plan/milp/milp.ts';
export { orderProblem } from './stock/plan/order-problem.ts';
export { type PlanProgress, planCuts, unplanned } from './stock/plan/plan-cuts.ts';
export { cutPlanSchema, cutProblemSchema } from './stock/plan/plan-schema.ts';
export { type CutListItem, type CutStep, cutList } from './stock/plan/saw/cut-list.ts';
export {
  giftWords,
  kerfWords,
  markWords,
  type PlacedPieces,
  pieceMark,
  stockRowWords,
  writeOnWords,
} from './stock/plan/saw/cut-words.ts';
export { stockLeft } from './stock/plan/stock-left.ts';
export { stockOfPieces } from './stock/plan/tube-problem.ts';
export { SAW_AT_FIRST, sawOf, type TypedSaw } from './stock/plan/typed-saw.ts';
export { stockItemSchema } from './stock/schema.ts';
export { isOfSize, otherMaterials, shelfMatch } from './stock/shelf-match.ts';
export { type ShelfOffers, shelfOffers } from './stock/shelf-offers.ts';
export { isLow, isRemnant, type StockItem } from './stock/stock-item.ts';
export { compareStockItems } from './stock/stock-order.ts';
export { stockTubeMm } from './stock/stock-tube.ts';
export { stockItemWords } from './stock/stock-words.ts';
export type { StorageFault, StorageProblem } from './storage-problem.ts';
// Units
export { degreesOf, radiansOf, roundedTo } from './units/angle.ts';
export { readCommaColumns, readDecimalCommas } from './units/decimal-comma.ts';
export { formatAngle, formatAngleBare, formatSignedAngle } from './units/format-angle.ts';
export { formatCut } from './units/format-cut.ts';
export {
  addsUpAsShown,
  finenessMm,
  formatDeviation,
  formatLength,
  formatLengthBare,
  isShownAsZero,
} from './units/format-length.ts';
export { formatTypedAngle, typedText } from './units/format-typed.ts';
export { type Length, type LengthUnit, lengthIn, MM_PER_INCH, mmOf } from './units/length.ts';
export { finerStyle, type LengthStyle, unitOf } from './units/length-style.ts';
export { parseAngle } from './units/parse-angle.ts';
export { parseLength, parseSignedLength } from './units/parse-length.ts';
