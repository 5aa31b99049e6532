/**
 * The shapes the service sends, for the editor's and the type checker's eyes only. What is absent
 * there is undefined here, never null.
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
 * @property {boolean} [score] it came from a score file and never had a picture
 *
 * @typedef {object} BookFacts
 * @property {number} revision of its map
 * @property {string} id
 * @property {string} title
 * @property {string} part
 * @property {number} bars
 * @property {number} verifiedPages
 * @property {number} doubts
 * @property {"draft"|"verified"} state
 * @property {string} createdAt ISO 8601
 * @property {Job} [job] while it waits or runs
 *
 * @typedef {BookFacts & {pages: number}} BookInfo a book on the shelf
 * @typedef {BookFacts & {pages: PageInfo[], pageCount: number, waits?: number, as?: "phone"|"reader"|"corrector"|"owner", keeps?: {pictures: "folder"|"elsewhere", machine: "this"|"other"}}} Book a book with its pages; `as`: what who asks is here
 *
 * @typedef {{id: string, title: string, part: string, pages: number, discardedAt: string, goneAt?: string}} BinnedBook a book in the bin; moments in ISO 8601
 * @typedef {{days?: number, books: BinnedBook[]}} Bin the books that can still be brought back, and for how many days where a person set that
 * @typedef {{files: number, bytes: number}} Amount
 * @typedef {{folder: string, closed: boolean, books: number, binned: number, database: Amount, pictures: Amount, smaller: Amount, setAside: Amount, missing: {book: string, page: number, what: string}[]}} Kept what is kept on the disk
 * @typedef {{version: string, dataFolder: string, notices: string[], setAside: Amount, care: string}} About
 *
 * @typedef {object} UploadAnswer
 * @property {Job} job
 * @property {string[]} accepted names of files
 * @property {Refused[]} refused
 *
 * @typedef {{name: string, detail: string}} Refused a file that was not taken
 *
 * @typedef {{id: string, name: string, bars: number}} ScorePart
 * @typedef {{name: string, part: string, parts: ScorePart[]}} Second a score attached as a second reading; part is empty until chosen
 * @typedef {{revision: number, second?: Second}} SecondAnswer
 * @typedef {{engines: string[], asked?: {name: string, running: boolean, why?: string}}} EnginesAnswer other readers of music, and the last one asked
 *
 * @typedef {{number: number, madeAt: string, who: string, revision: number, pages: number, bars: number, sha256: string, bytes: number}} Edition
 * @typedef {{revision: number, checked: boolean, correctionsSince?: number, changedSince?: boolean, editions: Edition[]}} EditionList newest first
 *
 * @typedef {{beats: number, unit: number, printed?: boolean}} Meter
 * @typedef {{fifths: number, printed?: boolean}} Key sharps counted up, flats counted down
 * @typedef {{text: string, enclosure: string}} RehearsalMark
 * @typedef {{text: string, where?: string, box?: Outline}} Word
 *
 * @typedef {object} Bar
 * @property {string} id
 * @property {number} page
 * @property {number} system
 * @property {Outline} outline
 * @property {number} number
 * @property {string} [label]
 * @property {number} count
 * @property {Meter} [meter]
 * @property {Key} [key]
 * @property {string} startBarline
 * @property {string} endBarline
 * @property {RehearsalMark} [rehearsal]
 * @property {"music"|"rest"|"multi-rest"|"bar-repeat"} content
 * @property {number[]} [ending]
 * @property {string[]} [signs]
 * @property {number} [times]
 * @property {Word[]} [words]
 * @property {number} confidence
 * @property {"read"|"inferred"|"corrected"|"verified"} origin
 * @property {number} [silentStart] beats free before its first note
 * @property {number} [silentEnd] beats free after its last note
 * @property {boolean} [waits] a correction of it waits in this browser, as with all else that `waits`
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
 * @property {HandMark[]} [byHand] what players wrote on it
 *
 * @typedef {{outline: Outline, text?: string, kind?: string, confidence?: number}} HandMark something written by hand on the print
 *
 * @typedef {object} MusicalNumber
 * @property {string} label
 * @property {string} [title]
 * @property {string} [firstBar]
 * @property {string} [lastBar]
 * @property {boolean} [tacet]
 * @property {number} [firstPage] of its first bar, where only some pages' bars were asked for
 * @property {number} [lastPage]
 *
 * @typedef {object} BarMap
 * @property {{title: string, part: string}} book
 * @property {MapPage[]} pages
 * @property {MusicalNumber[]} numbers
 * @property {Bar[]} bars
 * @property {number[]} [here] the pages whose lines and bars it has, where it is not all
 * @property {number} [waits] so many corrections wait in this browser; what follows from them is not in it
 *
 * @typedef {object} Answer
 * @property {string} label
 * @property {Record<string, string>} [correction] as text to text; empty: it is right as it is
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
 * @property {PlanQuestion} [question] what it asks; the plan goes by the first reading
 *
 * @typedef {object} PlanQuestion
 * @property {string} topic
 * @property {string} [about] bar or number
 * @property {{says: string, bars?: string, instead?: KeptChange[]}[]} readings
 * @property {number} [goesBy] which reading the plan goes by, where it isn't the first
 *
 * @typedef {object} HistoryEntry
 * @property {string} id
 * @property {string} when
 * @property {string} [who]
 * @property {string} text
 * @property {boolean} [undone]
 * @property {boolean} [waits] to be sent
 *
 * @typedef {object} Clash somebody else changed a thing at the same time
 * @property {string} mine what was wanted here, in words
 * @property {HistoryEntry[]} theirs what they did
 * @property {() => Promise<unknown>} again makes ours after theirs
 *
 * @typedef {object} History
 * @property {HistoryEntry[]} entries newest first
 * @property {number} undo steps that can be taken back
 * @property {number} redo
 *
 * What a person says about the map; `bar`, `before`, `to` are ids of bar entries.
 *
 * @typedef {{kind: "set-count", bar: string, count: number}
 *   | {kind: "set-content", bar: string, content: string, count: number}
 *   | {kind: "set-rehearsal", bar: string, text: string, enclosure: string}
 *   | {kind: "move-rehearsal", bar: string, to: string}
 *   | {kind: "remove-rehearsal"|"remove-meter"|"remove-key"|"remove-number", bar: string}
 *   | {kind: "set-meter", bar: string, beats: number, unit: number}
 *   | {kind: "set-key", bar: string, fifths: number}
 *   | {kind: "set-number", bar: string, number: number}
 *   | {kind: "set-label", bar: string, label: string}
 *   | {kind: "set-ending", bar: string, ending: number[]}
 *   | {kind: "set-sign", bar: string, sign: string, present: boolean}
 *   | {kind: "set-times", bar: string, times: number}
 *   | {kind: "set-words", bar: string, words: Word[]}
 *   | {kind: "set-silence", bar: string, side: Side, beats?: number}
 *   | {kind: "add-barline", page: number, system: number, x: number, y: number, before?: number}
 *   | {kind: "move-barline", bar: string, side: Side, x: number, y: number}
 *   | {kind: "remove-barline", bar: string, side: Side}
 *   | {kind: "set-barline", bar: string, side: Side, type: string}
 *   | {kind: "start-number", bar: string, label: string, title: string}
 *   | {kind: "add-tacet-number", before: string, label: string, title: string}
 *   | {kind: "verify-page", page: number, verified: boolean}
 *   | {kind: "add-system", page: number, outline: Outline}
 *   | {kind: "remove-system", page: number, system: number}
 *   | {kind: "dismiss-doubt", code: string, bar?: string, page?: number}} Correction
 *
 * @typedef {"start"|"end"} Side
 * @typedef {{revision: number, repeated?: boolean, entry: HistoryEntry, map: BarMap, doubts: Finding[]}} CorrectionAnswer
 *
 * @typedef {object} Consequence what a correction would change
 * @property {number} [renumbered] bars
 * @property {string} [first] the first of them, "34 → 39"
 * @property {number} [bars] more, or fewer
 * @property {number} [left] doubts
 * @property {number} [gone] doubts
 * @property {string[]} [raised] what would be asked then
 * @property {string[]} [refused] why it can't be made
 *
 * What the director changes; its kinds are typed where the page has their table.
 *
 * @typedef {import("../road/kinds.js").Change} Change
 *
 * @typedef {Change & {id: string, on?: boolean, when?: string, who?: string, waits?: boolean}} KeptChange a change in the show's list
 * @typedef {{changes: KeptChange[]}} ChangeList
 * @typedef {{revision: number, repeated?: boolean, entry: HistoryEntry, changes: KeptChange[], plan: Plan}} ChangeAnswer
 * @typedef {{revision: number, repeated?: boolean, entry: HistoryEntry, changes: KeptChange[], road: RoadStep}} RoadAnswer
 *
 * @typedef {object} UnderstoodLine
 * @property {string} line
 * @property {Change} [understood]
 * @property {string} [says]
 * @property {string} [asks]
 * @property {string[]} [candidates] words that would be understood
 * @property {{says: string, changes: Change[]}[]} [readings] what it may mean; without changes a word more is wanted
 * @property {Change} [keep] the note that would keep what is asked back
 * @property {boolean} [note] no change, kept as a note
 * @property {PlanFinding[]} [checks]
 *
 * @typedef {object} RoadBar
 * @property {string} id
 * @property {number} number
 * @property {string} [label]
 * @property {string} [within] its ending, "2nd ending", where its number occurs twice
 * @property {number} count
 * @property {string} content
 * @property {RehearsalMark} [rehearsal]
 * @property {Meter} [meter]
 * @property {Key} [key]
 * @property {string} start
 * @property {string} end
 * @property {number[]} [ending]
 * @property {string[]} [signs]
 * @property {number} [times]
 * @property {number} page
 * @property {boolean} cut
 * @property {{from: number, to: number}[]} [cutParts] shares of it that are out while others are played
 * @property {boolean} vamp
 * @property {boolean} safety
 * @property {string[]} [held] the open stretches that begin in it: "vamp 9-12"
 * @property {Word[]} [words]
 *
 * @typedef {{bar: string, at: number}} Spot inside a bar entry: the share of it before the spot
 * @typedef {object} RoadMark a change of the show where it stands in the form
 * @property {string} change its id; empty where the book itself says so
 * @property {string} number
 * @property {"bars"|"new-bars"|"head"|"end"|"show"|"lost"} place
 * @property {string} sign what a player would write there
 * @property {string} says
 * @property {Spot} [from]
 * @property {Spot} [to]
 * @property {string[]} [added] what new bars are called
 * @property {true} [open] its bars go round until somebody says so
 * @property {boolean} [waits] to be sent
 *
 * @typedef {object} RoadNumber
 * @property {string} label
 * @property {string} title
 * @property {boolean} tacet
 * @property {RoadBar[]} bars
 *
 * @typedef {{numbers: PlannedTime[], turns: RoadTurn[], findings: PlanFinding[], pages?: PagePlace[], waits?: number}} BesideForm what of the plan is shown beside the form
 * @typedef {Pick<PlannedNumber, "label"|"state"|"written"|"played"|"known">} PlannedTime
 * @typedef {Pick<Turn, "fromPage"|"toPage"|"leaves"|"pass"|"direction"|"gap"|"verdict"|"mark"|"again">} RoadTurn
 * @typedef {{revision: number, changesRevision: number, basis: string, numbers: RoadNumber[], marks: RoadMark[], beside: BesideForm, waits?: number}} Road `basis` names what it follows from besides the map
 * @typedef {{revision: number, before: string, basis: string, at: number[], numbers: RoadNumber[], marks: RoadMark[], beside: BesideForm}} RoadStep the numbers that are drawn otherwise than before, at their places; over a road of the basis `before`
 *
 * @typedef {object} Gap how long something is
 * @property {number} bars pickups not counted
 * @property {number} [beats] as the director shows them; absent where no meter is known
 * @property {number} [seconds] absent where no tempo is known
 * @property {string[]} [plus] what comes on top and has no length: "vamp 9-12", "hold 4"
 *
 * @typedef {"time"|"quick"|"unknown"|"none"} Verdict unknown: hangs on a tempo or a hold nobody knows
 *
 * @typedef {object} Advice
 * @property {string} kind
 * @property {string} [after] id of a bar entry
 * @property {number} [memorise] bars
 * @property {number} [bars]
 * @property {number} cost
 * @property {boolean} chosen
 * @property {string} text
 *
 * @typedef {object} Turn
 * @property {number} fromPage
 * @property {number} toPage
 * @property {string} leaves id of the bar entry that is left
 * @property {string} arrives id of the bar entry that is come to
 * @property {number} pass
 * @property {"forward"|"back"} direction
 * @property {number} [sheets] leaves turned at once
 * @property {Gap} gap
 * @property {string} [free] free beats inside bars that count for it, in words
 * @property {Verdict} verdict
 * @property {string} [because] what is not known, where that leaves the verdict open
 * @property {string} [again] when it comes, where it is made each time round a vamp or a safety
 * @property {"V.S."|"Time"} [mark]
 * @property {Advice[]} advice the chosen one first
 * @property {string[]} [unsure] what nobody has looked at yet and it hangs on
 * @property {string} [number] label of the number it is in
 * @property {string} [nextNumber] label of the number that is turned to
 *
 * @typedef {object} Entry one entry in the order of play
 * @property {string} bar id of the bar entry
 * @property {number} pass
 * @property {number} [from] first bar played of a shortened rest
 * @property {number} [bars] bars played of a shortened rest, or inserted
 * @property {number} [beatsCut] in the meter's lower figure
 * @property {string} [inserted] what inserted bars are called
 * @property {{names: string[], content?: "rest"|"music", meter?: string}} [added] of inserted bars: each one's name, what they are, their own meter
 * @property {true} [silent] the player rests this time, though the book has notes
 *
 * @typedef {object} OpenStretch bars played until the director goes on
 * @property {"vamp"|"safety"} kind
 * @property {string} first
 * @property {string} last
 * @property {"any-time"|"end-of-pass"} [leave]
 * @property {string} [bars] as a player calls them, "9-12"
 * @property {string} [says] "vamp 9-12 till cue, out any time"
 * @property {string} [cue] what it goes on till
 * @property {string} [exitBar] where it is left the last time round
 * @property {number} [exitBeat]
 * @property {{from: number, bars: number}[]} [places] single bars of the order of play before it, and of one time round
 *
 * @typedef {object} Pace from one bar of the order of play on
 * @property {number} from single bars before it
 * @property {number} beats in a bar, as the director shows them; 0 as the meter says
 * @property {number} [perMinute] quarters
 * @property {number} [toPerMinute] where the tempo changes by and by
 *
 * @typedef {{seconds: number, bars: number, barsWithout: number}} KnownTime what of a number's time is known, where not all is
 *
 * @typedef {object} PlannedNumber
 * @property {string} label
 * @property {string} [title]
 * @property {"played"|"tacet"|"cut"} [state]
 * @property {Pace[]} [pace]
 * @property {KnownTime} [known]
 * @property {Entry[]} order
 * @property {number} [written] bars
 * @property {Gap} played
 * @property {OpenStretch[]} open
 * @property {{link: string, next?: string, seconds?: number, cue?: string}} [following] how the next number follows
 * @property {Hands[]} [hands] what is held from one bar of the order of play on
 *
 * @typedef {{from: number, instrument?: string, bow?: string, mute?: string, extension?: string, tuning?: string}} Hands
 *
 * @typedef {object} LongRest
 * @property {string} first id of a bar entry
 * @property {string} [last]
 * @property {number} bars
 * @property {string} [number]
 * @property {number} [page]
 * @property {number} [seconds]
 * @property {{after: number, what: string, kind: string}[]} landmarks bars of rest before each
 * @property {string} [text]
 * @property {string[]} [unsure] what nobody has looked at yet and it hangs on
 *
 * @typedef {object} InstrumentChange
 * @property {string} at id of a bar entry
 * @property {string} [from]
 * @property {string} to
 * @property {string} [number]
 * @property {number} [pass]
 * @property {number} [seconds]
 * @property {number} [needed] seconds
 * @property {Verdict} verdict
 * @property {string} [because] what is not known, where that leaves the verdict open
 * @property {string} [text]
 * @property {string[]} [unsure] what nobody has looked at yet and the time hangs on
 *
 * @typedef {object} PencilMark
 * @property {number} page
 * @property {number} system
 * @property {string} bar id of a bar entry
 * @property {string} mark
 * @property {string} [sign] what is written
 * @property {string} [number]
 * @property {string} [where] the bar as a player says it
 * @property {string[]} [unsure] what nobody has looked at yet and it hangs on
 * @property {boolean} [waits] its tick is to be sent
 *
 * @typedef {{kind: string, number: string, page: number, bar: string, text: string}} LookAhead
 *
 * @typedef {object} RunSheetLine
 * @property {string} number
 * @property {string} title
 * @property {"played"|"tacet"|"cut"} state
 * @property {number} [page]
 * @property {string[]} instruments
 * @property {string} [entrance]
 * @property {number} [entranceAfter] bars of rest
 * @property {string} [key]
 * @property {number} [seconds]
 * @property {KnownTime} [known]
 * @property {string} link how the next number follows
 * @property {Opening} [opening] how it begins
 * @property {{kind: string, bars: string, cue?: string, exit?: string, pass?: string}[]} [vamps]
 * @property {string[]} [cuts] what is out, "5-8"
 * @property {true} [track] it runs with a track, which doesn't wait
 * @property {string[]} [plus] what comes on top of its length: "vamp 10-11"
 * @property {string[]} [unsure] what nobody has looked at yet and its length hangs on
 *
 * @typedef {object} Opening how a number begins, where it now begins
 * @property {string} [meter]
 * @property {number} beats as the director shows them, 0 where no meter is known
 * @property {number} [perMinute] quarters
 * @property {string} [instrument]
 * @property {string} [bow]
 * @property {string} [mute]
 *
 * @typedef {object} Night how long the music is, as far as known
 * @property {number} seconds
 * @property {{number: string, what: string}[]} plus
 * @property {string[]} without labels of numbers whose length is not known, or only in part
 *
 * @typedef {{page: number, side: "left"|"right"|"unknown", opening: number, folio?: number, leaf: "bound"|"inserted"|"loose"}} PagePlace where a page lies
 *
 * @typedef {object} Plan
 * @property {PlannedNumber[]} numbers
 * @property {Turn[]} turns
 * @property {LongRest[]} rests
 * @property {InstrumentChange[]} instruments
 * @property {PencilMark[]} pencil
 * @property {PlanFinding[]} findings
 * @property {LookAhead[]} [lookAhead]
 * @property {RunSheetLine[]} [runSheet]
 * @property {PagePlace[]} [pages]
 * @property {{pages: number, of: number}} [checked] pages a person has looked at
 * @property {Night} [night]
 * @property {KeptNote[]} [notes] words kept as they were said
 * @property {Trap[]} [traps] what trips a player who doesn't know the show
 * @property {number} [waits] so many edits wait in this browser that are not in it
 *
 * @typedef {{number: string, at?: string, bar?: string, text: string, when?: string, change: string, errata?: boolean}} KeptNote
 * @typedef {{number: string, bar: string, page: number, kind: "form"|"state"|"entrance"|"turn"|"hands"|"watch"|"ask", grave: boolean, text: string, unsure?: string[]}} Trap
 */

/**
 * @template T
 * @typedef {{before?: T, now: T} | {before: T, now?: undefined}} BeforeNow absent where it isn't there
 */

/**
 * @typedef {object} Since what became different for the player
 * @property {BeforeNow<string>[]} changes in words
 * @property {PlanDiff} diff
 *
 * @typedef {object} PlanDiff
 * @property {{label: string, text: string}[]} numbers
 * @property {BeforeNow<Turn>[]} turns
 * @property {BeforeNow<LongRest>[]} rests
 * @property {PencilMark[]} write
 * @property {PencilMark[]} erase
 *
 * @typedef {object} Settings
 * @property {number} turnSeconds
 * @property {number} quickSeconds
 * @property {number} memoryBars
 * @property {number} changeSeconds
 * @property {boolean} repeatsAfterJump
 * @property {Chair} [chair]
 * @property {string} [version] of the show, as changes name it
 * @property {string} [rehearsedAt] ISO 8601
 * @property {string} [firstPage] how the first page lies: "left", "right", "single-sheets"; absent until a player says so
 * @property {{[page: string]: string}} [leaves] pages that are not bound as the others, "inserted" or "loose", by their id
 *
 * @typedef {object} Chair what the player holds, and how long changing it takes; what is absent is as usual
 * @property {string} [inHand] before the first number
 * @property {string[]} [doublings]
 * @property {number} [bowSeconds]
 * @property {number} [muteSeconds]
 * @property {number} [reedSeconds]
 * @property {number} [retuneSeconds]
 * @property {number} [putDownSeconds]
 *
 * @typedef {{number: string, here: string, there: string}} AlignPin two bars a person said are the same
 * @typedef {{how: "same"|"otherwise"|"unsure"|"only-here"|"only-there", first?: string, last?: string, otherFirst?: string, otherLast?: string, bars: number, otherBars: number}} AlignStretch bars that stand alike in two parts
 * @typedef {{number: string, title: string, bars: number, otherBars: number, same: boolean, stretches: AlignStretch[]}} AlignRow
 * @typedef {{numbers: AlignRow[], onlyHere: string[], onlyThere: string[], problems: string[], differences: {number: string, kind: string, text: string}[]}} AlignTable
 * @typedef {{revision: number, may?: "choose"|"name"|"look", gone?: boolean, called?: string, other?: {id: string, title: string, part: string}, pins?: AlignPin[], table?: AlignTable, changes?: {[id: string]: string}, otherwise?: {number: string, stretches: AlignStretch[]}[]}} Align the other part beside this one; changes: what the bars of each are called there; otherwise: the numbers whose bars are called otherwise
 * @typedef {{format: string, changes: object[], left: {id: string, says: string, why: string}[]}} Carried changes in the other part's bars, and what has no sure place there
 *
 * What a GET below a book's address answers.
 *
 * @typedef {{
 *   "": Book,
 *   "/map": BarMap,
 *   "/doubts": {doubts: Finding[]},
 *   "/history": History,
 *   "/settings": Settings,
 *   "/second": SecondAnswer,
 *   "/align": Align,
 *   "/align?only=changes": Align,
 *   "/editions": EditionList,
 *   "/marks": {written: PencilMark[]},
 *   "/changes": ChangeList,
 *   "/changes/history": History,
 *   "/plan": Plan,
 *   "/plan?without=changes": Plan,
 *   "/roadmap": Road,
 *   [since: `/plan/since?moment=${string}`]: Since,
 * }} BookAnswers
 *
 * The events of each page, by name; those called live come from the service.
 *
 * @typedef {{
 *   "live:job": Job,
 *   "live:page": {page: string},
 *   "live:map": {revision: number},
 *   "live:plan": {revision: number},
 *   "live:settings": {revision: number},
 *   "live:marks": object,
 *   "live:edition": {number: number, revision: number},
 *   "live:share": object,
 *   "live:second": object,
 *   "live:lost": undefined,
 *   "live:found": undefined,
 * }} LiveEvents
 *
 * @typedef {LiveEvents & {
 *   uploaded: undefined,
 *   move: {page: PageInfo, to: number},
 *   delete: PageInfo,
 *   again: PageInfo,
 *   retake: {page: PageInfo, file: File},
 * }} BookEvents
 *
 * @typedef {LiveEvents & {
 *   map: BarMap,
 *   doubts: Finding[],
 *   history: History,
 *   stale: Clash|undefined,
 *   failed: unknown,
 *   busy: boolean,
 *   made: HistoryEntry,
 *   pick: Bar|undefined,
 *   "pick-also": {bar: Bar, through: boolean},
 *   "cut-at": {bar: Bar, p: Point},
 *   "line-drawn": Outline|undefined,
 *   "mark-moved": {bar: Bar, to: Bar},
 *   "drag-end": {bar: Bar, side: Side, p: Point},
 * }} DeskEvents
 *
 * @typedef {LiveEvents & {
 *   road: undefined,
 *   listed: undefined,
 *   stale: Clash|undefined,
 *   chosen: undefined,
 *   propose: {change: Change, text: string},
 *   edit: string,
 * }} RoadEvents
 */

export {};
