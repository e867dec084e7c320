/** Every word of the page, in English: one catalogue, cut by area. */
import { forms } from "./forms";
import { frame } from "./frame";
import { pages } from "./pages";
import { pictures } from "./pictures";
import { stages } from "./stages";

export const en = { frame, forms, stages, pictures, pages } as const;
