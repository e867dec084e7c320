/** The pages beside the stages. */
import "./pages.css";
import "./tables.css";
import "./lists.css";
import "./phone.css";
import "./paper.css";

export { Checks } from "./checks";
export { ChooseKit } from "./choose_kit";
export { Compare } from "./compare";
export { FileList, Files } from "./files";
export { FirstAnswer } from "./first_answer";
export { History } from "./history";
export { MissingList } from "./missing_list";
export { numberLink } from "./parts";
export { Questions } from "./questions";
export { Sources } from "./sources";
export { TakeIn } from "./take_in";
export { Tonight } from "./tonight";
