/**
 * Edits of a job for a drawing editor: each takes a job (the house of one state) and gives the job changed, the one
 * given is left as it is. Points and lengths are metres (x east, y north); what is written into the job is text in the
 * units of `Writing`. An edit without sense throws `EditRefused` with a message for the user.
 * Wrap an edit in `editState(job, stateId, (house) => …)` to make it in one state of the job.
 */
export { type Clip, copy, paste } from './copy-paste.ts';
export { branchesOf, deletePart } from './delete-part.ts';
export { drawn, isDrawn, risesOf } from './drawn.ts';
export { EditRefused } from './edit-refused.ts';
export { addState, changesBetween, editState, takeBackChange } from './edit-state.ts';
export {
  angleBetween,
  counterClockwise,
  edgesOf,
  middleOf,
  nearestOnPath,
  type OnLine,
  pathLength,
  pointAlong,
  pointInPolygon,
  polygonArea,
  type Stretch,
  sharedStretches,
} from './geometry.ts';
export { pathOf as planPathOf, roomAt, storeyOfZone } from './in-job.ts';
export {
  addDoor,
  addSurface,
  addTransfer,
  addVentilator,
  addWindow,
  deleteOpening,
  deleteSurface,
  type JobDoor,
  type JobTransfer,
  type JobVentilator,
  roomsBeside,
  wallAt,
} from './openings.ts';
export { overlapArea } from './overlap-area.ts';
export {
  addPart,
  addPartPoint,
  addSystem,
  deletePartPoint,
  deleteSystem,
  insertOnTrunk,
  movePart,
  movePartPoint,
  type NewPart,
  nearestPart,
  setRegister,
  setRises,
  takeoffAt,
} from './parts.ts';
export {
  asFittings,
  fittingsFor,
  type ProposedFitting,
  proposeFittings,
  type Takeoff,
} from './propose-fittings.ts';
export { redraw } from './redraw.ts';
export { renameRecord } from './rename-record.ts';
export {
  addRoom,
  addRoomCorner,
  deleteRoom,
  deleteRoomCorner,
  type Floor,
  moveRoom,
  moveRoomCorner,
  moveRoomEdge,
  type NewRoom,
  newJob,
  resizeRoom,
  setRoomHeight,
} from './rooms.ts';
export { type PartFilter, partsIn, setMany } from './set-many.ts';
export { type Snapped, type SnapTo, snapPoint } from './snap-point.ts';
export { areaText, lengthText, pointText, siOf, sizeText } from './typed-text.ts';
export { idFrom, uniqueId } from './unique-id.ts';
export { type Writing, wallsFromOutline } from './walls-from-outline.ts';
export { addZone, deleteZone, moveZone, type NewZone, setZoneOutline } from './zones.ts';
