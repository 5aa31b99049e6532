import { fileURLToPath } from "node:url";
import js from "@eslint/js";
import { createNodeResolver, importX } from "eslint-plugin-import-x";
import globals from "globals";

const HERE = fileURLToPath(new URL(".", import.meta.url));

/** Rooms are pages of their own: what two of them need stands in `shared`, what all need in `core`. */
const ROOMS = ["book", "desk", "docs", "phone", "practice", "road", "shelf", "stand", "turns"];
const site = (/** @type {string} */ folder) => `./site/js/${folder}`;

const NO_MARKUP = "Text is never markup: make elements with core/dom.js.";
const NO_CLOCK = "Wait for the thing itself, an event or an answer. What needs the clock (a toast that goes, keys that pause) uses core/clock.js.";

const CLOCK = ["setTimeout", "setInterval", "setImmediate", "requestAnimationFrame", "requestIdleCallback"];
const MARKUP = ["innerHTML", "outerHTML", "insertAdjacentHTML", "setHTMLUnsafe", "parseHTMLUnsafe", "createContextualFragment", "parseFromString", "srcdoc"];

/**
 * Types must say something: no `any` in JSDoc, and no error of the type checker made silent without
 * a reason beside it.
 *
 * @type {import("eslint").Rule.RuleModule}
 */
const noAny = {
  create: (context) => ({
    Program() {
      for (const comment of context.sourceCode.getAllComments()) {
        const text = comment.value;
        const loose = text.startsWith("*") && /\{[^}]*\bany\b(?!-)/.test(text);
        const silent = /@ts-(ignore|nocheck)|@ts-expect-error\s*$/.test(text);
        if (loose || silent) context.report({ loc: comment.loc ?? { line: 1, column: 0 }, message: loose ? "Say the type: any is none." : "An error is mended, or expected for a reason said beside it." });
      }
    },
  }),
};

/** @type {import("eslint").Linter.Config[]} */
export default [
  { ignores: ["target/"] },
  { linterOptions: { noInlineConfig: true } },
  js.configs.recommended,
  { files: ["*.js"], languageOptions: { globals: globals.node } },
  {
    files: ["site/**/*.js"],
    plugins: { "import-x": importX, types: { rules: { "no-any": noAny } } },
    languageOptions: { ecmaVersion: 2023, sourceType: "module", globals: globals.browser },
    settings: { "import-x/resolver-next": [createNodeResolver({ extensions: [".js"] })], "import-x/extensions": [".js"] },
    rules: {
      "import-x/no-cycle": "error",
      "import-x/no-self-import": "error",
      "import-x/no-unresolved": ["error", { caseSensitive: true }],
      "import-x/no-duplicates": "error",
      "import-x/first": "error",
      "import-x/extensions": ["error", "always"],
      "import-x/no-restricted-paths": ["error", {
        basePath: HERE,
        zones: [
          { target: site("core"), from: "./site/js", except: ["./core"], message: "core knows no page." },
          { target: site("shared"), from: "./site/js", except: ["./core", "./shared"], message: "What rooms share knows no room." },
          ...ROOMS.map((room) => ({
            target: site(room),
            from: "./site/js",
            except: ["./core", "./shared", `./${room}`],
            message: "A room never imports another: what both need stands in shared.",
          })),
        ],
      }],
      "no-restricted-globals": ["error", ...CLOCK.map((name) => ({ name, message: NO_CLOCK }))],
      "no-restricted-properties": ["error",
        ...CLOCK.map((property) => ({ property, message: NO_CLOCK })),
        ...MARKUP.map((property) => ({ property, message: NO_MARKUP })),
        { object: "document", property: "write", message: NO_MARKUP },
        { object: "document", property: "writeln", message: NO_MARKUP },
      ],
      "no-restricted-syntax": ["error",
        { selector: "NewExpression[callee.name='Promise'] CallExpression[callee.name=/^(later|every)$/]", message: NO_CLOCK },
        { selector: "WhileStatement CallExpression[callee.object.name=/^(Date|performance)$/][callee.property.name='now']", message: NO_CLOCK },
      ],
      "types/no-any": "error",
      "no-unused-vars": ["error", { argsIgnorePattern: "^_" }],
      "eqeqeq": "error",
      "no-eval": "error",
      "no-implied-eval": "error",
      "no-new-func": "error",
      "no-script-url": "error",
      "no-var": "error",
      "prefer-const": "error",
    },
  },
  { files: ["site/docs/**/*.mjs"], languageOptions: { globals: globals.node } },
  { files: ["site/sw.js"], languageOptions: { sourceType: "script", globals: globals.serviceworker } },
  { files: ["site/js/early.js"], languageOptions: { sourceType: "script" } },
  {
    files: ["site/js/core/clock.js"],
    rules: { "no-restricted-globals": "off" },
  },
];
