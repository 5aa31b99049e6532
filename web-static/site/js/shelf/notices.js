import { call, get } from "../core/api.js";
import { confirm } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").About} About */

/**
 * What barmap found in its folder when it started; nothing where all was well.
 *
 * @param {() => Promise<void>} changed
 */
export async function noticeList(changed) {
  /** @type {About} */
  const { notices, setAside, dataFolder } = await get("/api/about");
  const aside = setAside.files;
  if (notices.length === 0 && aside === 0) return null;
  return el(
    "section",
    { class: "card notices", id: "notices", "aria-labelledby": "notices-title" },
    el("h2", { id: "notices-title" }, icon("warn"), " Please look at this"),
    el("ul", {}, notices.map((text) => el("li", { text }))),
    aside
      ? el(
          "div",
          { class: "row between" },
          el("span", { class: "soft small", text: `In ${dataFolder}/set-aside: ${count(aside, "file")}. No book needs what lies there; pictures of rented pages may be among it.` }),
          button("Delete it for good", () => void clear(aside, changed), { class: "btn btn-bad", id: "clear-aside" }, icon("bin")),
        )
      : null,
  );
}

/**
 * @param {number} files
 * @param {() => Promise<void>} changed
 */
async function clear(files, changed) {
  const yes = await confirm(`Delete ${count(files, "file")} that was set aside?`.replace(/files that was/, "files that were"), "They are deleted now, where barmap keeps them. This can't be taken back. If a book misses pictures, look into the folder first.", "Delete for good");
  if (!yes) return;
  try {
    await call("DELETE", "/api/kept/set-aside");
    await changed();
    toast("What was set aside is deleted.");
  } catch (error) {
    complain(error);
  }
}
