/** The pictures: pure components, drawn from pieces of the plan. */
export { AscentFan } from "./AscentFan";
export { AscentPlayer } from "./AscentPlayer";
export { ControlMap } from "./ControlMap";
export { Drivers } from "./Drivers";
export { ExposurePicture } from "./ExposurePicture";
export { LiftDrawing, type TryBag } from "./LiftDrawing";
export { RangeLines, type RangeRow } from "./RangeLines";
export { RiggingLoads } from "./RiggingLoads";
export { SearchCover } from "./SearchCover";
export { SiteMap, type Moved } from "./SiteMap";
export { TimeLine } from "./TimeLine";
export { VentChart } from "./VentChart";
export type * as Drawn from "./plan";
