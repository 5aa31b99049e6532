/**
 * Bar arithmetic: from the signs of a book to numbered bars, with every contradiction settled or
 * shown.
 *
 * <p>Its rooms as the data goes: {@code set} holds the settings, {@code cells} cut systems, {@code
 * cost} prices what they saw, {@code solve} searches, {@code book} is the model of one book, {@code
 * write} makes the map of its path; {@code compare} lays two books beside each other, {@code
 * second} uses a second reading.
 *
 * <p>Printed page numbers are believed where two pages or more count on by one a page ({@link
 * org.barmap.reckon.write.PageNumbers PageNumbers}); a lone one is not written, for a wrong one
 * turns every page turn.
 *
 * <p><b>The model.</b> The book is walked once in reading order. The state is the number of the bar
 * that is open. Every system is cut into cells by whatever may be a barline; in each cell, in this
 * order:
 *
 * <ul>
 *   <li>printed bar numbers at its beginning are compared with the state ({@link
 *       org.barmap.reckon.solve.Observe Observe}): a number the print may say costs the logarithm
 *       of its probability, any other one the logarithm of a misread print spread over all numbers;
 *   <li>a rest adds its count less one ({@link org.barmap.reckon.solve.Move Move}): the readings of
 *       its numeral, or any count at the price of a misread numeral;
 *   <li>barlines missed inside the cell add one or two ({@link org.barmap.reckon.cells.GapEvidence
 *       GapEvidence}): likelier where its notes and rests add up to two bars or three ({@link
 *       org.barmap.reckon.cells.Beats Beats}), where the cell is wide for its line and its page,
 *       where a sign that stands in the middle of its bar stands off the middle of the cell or
 *       there are two, where something stands inside it that stands at a bar's beginning, and where
 *       the reader saw a faint line;
 *   <li>the barline at its end adds one if it is one ({@link org.barmap.reckon.cells.LineEvidence
 *       LineEvidence}): likelier where the two cells beside it together look like two bars and each
 *       holds one bar's worth; refusing it joins them.
 * </ul>
 *
 * <p>How long a bar is meant to be ({@link org.barmap.reckon.cells.BarLengths BarLengths}) is what
 * the meter says, or what most bars hold where no meter was read or hardly any bar agrees with it;
 * on a page where few bars add up to it the notes are misread, and nothing is concluded from them.
 *
 * <p>Between systems counting may start again ({@link org.barmap.reckon.solve.Restart Restart}):
 * nearly surely under the heading of a musical number or after a final barline, hardly ever
 * elsewhere; or a line or pages may be missing. A bar printed "24A" counts as part of 24. Rehearsal
 * marks are a second sequence; when they are numbers, both readings are solved (marks that count
 * bars, marks that count themselves) and the likelier one is kept. What was read as a mark may be
 * none: {@link org.barmap.reckon.book.MarkSequence MarkSequence} weighs how surely it was seen, and
 * whether it is drawn as the book's marks are, against its place in the sequence; numbers over
 * every fifth bar are told from marks by the bars they stand on ({@link
 * org.barmap.reckon.book.CountingMarks CountingMarks}).
 *
 * <p>Bars are numbered straight through first and second endings, as engravers mostly print them.
 * Where that had to bend something after an ending, the musical number is weighed once more with
 * its second endings numbered like the first ({@link org.barmap.reckon.book.EndingNumbers
 * EndingNumbers}): the first ending is then a side way that leaves the book's number as it was
 * ({@link org.barmap.reckon.solve.Branch Branch}), so the optimum stays exact. It takes printed
 * numbers that make it twenty times as likely as not, at odds of one book in fifty beforehand (from
 * memory, not fitted); a musical number that says nothing follows the book.
 *
 * <p>{@link org.barmap.reckon.solve.Solver Solver} finds the path of least total cost exactly, and
 * from sums over all paths the probability of each choice on it. What the path had to bend is a
 * finding, ordered by how many bars an error there would shift.
 *
 * <p><b>The costs</b> are negative logarithms of probabilities, all in {@link
 * org.barmap.reckon.cost.Costs Costs}, with their values in {@code costs.json}:
 *
 * <ul>
 *   <li>shares of events (missed and invented barlines, misread numerals, restarts, pickups, lines
 *       not found) as counted on the read pages of the corpus, half an event added on either side;
 *   <li>logistic in the reader's own probability: whether a line is a barline, whether a rest or a
 *       numeral stands for several bars, whether a number is a bar number;
 *   <li>how what stands in a cell or beside a line tells of a missed or invented line: cells of the
 *       corpus against the same cells with a true line taken away, or with one put anywhere; first
 *       by width and signs alone, then with what the beats add where they are known;
 *   <li>what a faint line tells: peaks that missed barlines left on the corpus and on worse copies
 *       of it, against peaks where none is ({@code barmap fit traces}).
 * </ul>
 *
 * <p>Books differ in how often their numerals are misread and their barlines missed, so a book that
 * errs more than twice as often as the corpus is settled once more with its own shares ({@link
 * org.barmap.reckon.book.OwnRates OwnRates}); the corpus's share then counts as {@code strength}
 * observations, which is fitted as well. In a book that errs no more than usual a bar is only
 * divided where the book's numbers ask for it ({@code mostMissed}, not fitted).
 *
 * <p><b>Rules</b> that decide before the sum over the book, so that it can't weigh them. Each could
 * be evidence with a cost. They stay rules for now because a threshold gives a wrong reading no
 * weight and a cost gives it some, so that readings would change; that has to be weighed for each
 * by itself against the figures of the corpus:
 *
 * <ul>
 *   <li>{@code sign.rule.MarkOrNumber}, {@code sign.rule.MarkBySize}: a number is a bar's or a mark
 *       by how the page's lines begin and by its size, and a folio is left out. The nearest to
 *       evidence: the reader would have to hand on both kinds with probabilities, as it does only
 *       for numeric marks of a whole book ({@link org.barmap.reckon.book.BookModel BookModel}
 *       solves both);
 *   <li>{@code sign.rule.LineNumber}, {@code sign.rule.KindByText}, {@code sign.rule.Overhead}: a
 *       text is a number, a mark, a word or nothing by how well it reads as one; what is dropped
 *       there never reaches the book;
 *   <li>{@code sign.HeadingReader}: a line of text is a heading or none. Its probability does count
 *       (at {@code restartAtHeading}), but where any heading was read no line may be missing before
 *       it, and {@link org.barmap.reckon.book.Endings Endings} and {@code write.MapWriter} ask for
 *       even odds;
 *   <li>{@link org.barmap.reckon.cells.Marks Marks}: a printed number belongs to the one bar that
 *       is nearest, though the next may be meant;
 *   <li>{@link org.barmap.reckon.cells.RestEvidence RestEvidence}: a rest has the one numeral
 *       nearest to it, and one cell holds one rest of several bars;
 *   <li>{@link org.barmap.reckon.cells.SystemCells SystemCells}: faint lines cut no cell; what is
 *       at a line's very beginning is no barline; a tail with a courtesy sign alone is no bar. More
 *       candidates would cost time with each;
 *   <li>{@link org.barmap.reckon.cells.BarLengths BarLengths}: a meter holds or not by what most
 *       bars add up to, since lengths are needed before the gaps can be priced;
 *   <li>{@link org.barmap.reckon.book.Endings Endings}, {@link org.barmap.reckon.book.EndingNumbers
 *       EndingNumbers}: which brackets belong together is a rule, whether they are numbered alike
 *       is weighed;
 *   <li>a bar printed "24A" counts as part of 24, whatever the reader's probability of the letter
 *       ({@code book.Lattice}).
 * </ul>
 *
 * <p>What all of these decide by is in {@link org.barmap.reckon.set.ReckonSettings ReckonSettings}
 * and in the settings of the stage they stand in.
 *
 * <p>Not fitted, because the corpus is of single pages, which say nothing about them, and books
 * joined from them would only say how they were joined: {@code restartElsewhere} and {@code
 * missingPages} (how often publishers leave a heading out, or a page is lost), the shares of {@link
 * org.barmap.reckon.book.MarkSequence MarkSequence} (which letters houses skip; the makers of the
 * corpus's pages decided it), and the alignment costs of {@link
 * org.barmap.reckon.second.SecondAlignment SecondAlignment} (errors of programs that weren't
 * measured). {@code doubt} is a choice of how often a person is asked, not a share of anything.
 */
@API(status = API.Status.INTERNAL)
@NullMarked
package org.barmap.reckon;

import org.apiguardian.api.API;
import org.jspecify.annotations.NullMarked;
