/**
 * The shapes the service sends, for the editor's and the type checker's eyes only.
 *
 * @typedef {[number, number]} Point page pixels, x right, y down
 * @typedef {Point[]} Outline four corners: top left, top right, bottom right, bottom left
 *
 * @typedef {object} Job
 * @property {string} id
 * @property {"waiting"|"running"|"done"|"failed"} state
 * @property {number} done
 * @property {number} of
 * @property {string} text
 *
 * @typedef {object} PageInfo
 * @property {string} id
 * @property {number} index
 * @property {string} source
 * @property {number} width
 * @property {number} height
 * @property {"waiting"|"reading"|"read"|"failed"|"verified"} state
 * @property {string} [finding] one line on why it failed
 * @property {number} [expectedWrong] how many entries are likely wrong; absent until it is read
 *
 * @typedef {object} BookInfo
 * @property {string} id
 * @property {string} title
 * @property {string} part
 * @property {number|PageInfo[]} pages
 * @property {number} [bars]
 * @property {number} [verifiedPages]
 * @property {number} [doubts]
 * @property {"draft"|"verified"} [state]
 * @property {string} [createdAt]
 * @property {Job} [job]
 *
 * @typedef {object} Bar
 * @property {string} id
 * @property {number} page
 * @property {number} system
 * @property {Outline} outline
 * @property {number} number
 * @property {string} [label]
 * @property {number} count
 * @property {{beats: number, unit: number, printed?: boolean}} [meter]
 * @property {{fifths: number, printed?: boolean}} [key]
 * @property {string} startBarline
 * @property {string} endBarline
 * @property {{text: string, enclosure: string}} [rehearsal]
 * @property {"music"|"rest"|"multi-rest"|"bar-repeat"} content
 * @property {number[]} [ending]
 * @property {string[]} [signs]
 * @property {number} [times]
 * @property {{text: string, where?: string}[]} [words]
 * @property {number} confidence
 * @property {"read"|"inferred"|"corrected"|"verified"} origin
 * @property {number} [silentStart] beats free before its first note
 * @property {number} [silentEnd] beats free after its last note
 *
 * @typedef {object} StaffSystem
 * @property {number} index
 * @property {Outline} outline
 * @property {number} staffSpace
 * @property {number} [printedBarNumber]
 *
 * @typedef {object} MapPage
 * @property {number} index
 * @property {string} [id]
 * @property {string} source
 * @property {number} width
 * @property {number} height
 * @property {number} [expectedWrong] how many of its entries are likely wrong
 * @property {StaffSystem[]} systems
 *
 * @typedef {object} MusicalNumber
 * @property {string} label
 * @property {string} [title]
 * @property {string} [firstBar]
 * @property {string} [lastBar]
 * @property {boolean} [tacet]
 *
 * @typedef {object} BarMap
 * @property {{title: string, part: string}} book
 * @property {MapPage[]} pages
 * @property {MusicalNumber[]} numbers
 * @property {Bar[]} bars
 *
 * @typedef {object} Answer
 * @property {string} label
 * @property {Record<string, unknown>} [correction]
 *
 * @typedef {object} Finding
 * @property {"info"|"doubt"|"error"} severity
 * @property {string} [stage]
 * @property {number} [page]
 * @property {number} [system]
 * @property {string} [bar]
 * @property {Outline} [outline]
 * @property {string} code
 * @property {string} text
 * @property {Answer[]} [answers]
 * @property {number} [weight]
 *
 * @typedef {object} PlanFinding
 * @property {"info"|"doubt"|"error"} severity
 * @property {string} [at] id of the bar entry it is about
 * @property {string} code
 * @property {string} text
 * @property {string} [change] id of the change it follows from
 * @property {string[]} [candidates]
 *
 * @typedef {object} HistoryEntry
 * @property {string} id
 * @property {string} when
 * @property {string} [who]
 * @property {string} text
 * @property {boolean} [undone]
 *
 * @typedef {Record<string, any>} Correction
 * @typedef {Record<string, any>} Change
 *
 * @typedef {object} UnderstoodLine
 * @property {string} line
 * @property {Change} [understood]
 * @property {string} [says]
 * @property {string} [asks]
 * @property {string[]} [candidates]
 * @property {PlanFinding[]} [checks]
 *
 * @typedef {object} RoadBar
 * @property {string} id
 * @property {number} number
 * @property {string} [label]
 * @property {string} [within] its ending, "2nd ending", where its number occurs twice
 * @property {number} count
 * @property {string} content
 * @property {any} [rehearsal]
 * @property {any} [meter]
 * @property {{fifths: number, printed?: boolean}} [key]
 * @property {string} [start]
 * @property {string} [end]
 * @property {number[]} [ending]
 * @property {string[]} [signs]
 * @property {number} [times]
 * @property {number} [page]
 * @property {boolean} [cut]
 * @property {{from: number, to: number}[]} [cutParts] shares of it that are out while others are played
 * @property {boolean} [vamp]
 * @property {boolean} [safety]
 * @property {any[]} [words]
 *
 * @typedef {object} RoadNumber
 * @property {string} label
 * @property {string} [title]
 * @property {boolean} [tacet]
 * @property {RoadBar[]} bars
 *
 * @typedef {object} Gap
 * @property {number} bars
 * @property {number} beats
 * @property {number} [seconds]
 *
 * @typedef {object} Turn
 * @property {number} fromPage
 * @property {number} toPage
 * @property {string} leaves
 * @property {string} arrives
 * @property {number} [pass]
 * @property {string} [direction]
 * @property {Gap} gap
 * @property {string} [free] free beats inside bars that count for it, in words
 * @property {"time"|"quick"|"none"} verdict
 * @property {Record<string, any>[]} [advice]
 *
 * @typedef {object} Plan
 * @property {{label: string, order: {bar: string, pass: number}[], played?: any, open?: any[]}[]} numbers
 * @property {Turn[]} turns
 * @property {any[]} [rests]
 * @property {any[]} [instruments]
 * @property {any[]} [pencil]
 * @property {PlanFinding[]} [findings]
 */

export {};
