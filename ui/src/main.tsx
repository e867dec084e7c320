import { render } from "preact";

import "./tokens.css";
import "./base.css";
import "./shell/shell.css";
import "./widgets/rows.css";
import "./widgets/widgets.css";
import "./stages/stages.css";
import { Page } from "./shell/Page";
import { show } from "./shell/theme";
import { learn } from "./state/form";

show();
void learn();
const place = document.getElementById("page");
if (place) render(<Page />, place);
