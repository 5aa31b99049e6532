package org.barmap.reckon.book;

import java.util.List;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Solution.Choice;
import org.barmap.sign.kind.Reading;

/**
 * How often the reader erred in this book, estimated from the book itself.
 *
 * <p>Books differ more than pages of one book do, so a corpus's share is only where to start: it
 * counts as {@code strength} observations, and what the first settling bent is added to it.
 * Invented lines need no such share: how sure the reader was of a line tells more than how often it
 * errs.
 */
final class OwnRates implements About.Follower {

  private static final BookSettings.Rates SET = ReckonSettings.STANDARD.book().rates();

  private double gaps;
  private double missed;
  private double counts;
  private double countsBent;
  private double numbers;
  private double numbersBent;

  private OwnRates() {}

  /**
   * Returns the costs with this book's own shares, or the same where it errs no more than usual.
   */
  static Costs of(Lattice lattice, List<Choice> choices, Costs costs) {
    OwnRates own = new OwnRates();
    for (int t = 0; t < choices.size(); t++) {
      lattice.abouts().get(t).take(choices.get(t), own);
    }
    double lost = own.share(costs, costs.gaps().missedLine(), own.missed, own.gaps);
    double count = own.share(costs, costs.rests().misreadCount(), own.countsBent, own.counts);
    double number = own.share(costs, costs.numbers().misreadNumber(), own.numbersBent, own.numbers);
    boolean more =
        lost > SET.more() * costs.gaps().missedLine()
            || count > SET.more() * costs.rests().misreadCount()
            || number > SET.more() * costs.numbers().misreadNumber();
    return more ? costs.withRates(lost, count, number) : costs;
  }

  private double share(Costs costs, double usual, double bent, double of) {
    return Math.max(usual, (usual * costs.strength() + bent) / (costs.strength() + of));
  }

  @Override
  public void gap(About.Gap about, Choice choice) {
    gaps++;
    missed += choice.shift();
  }

  @Override
  public void rest(About.Rest about, Choice choice) {
    if (!about.evidence().counts().isEmpty()) {
      counts++;
      countsBent += says(about.evidence().readings(), choice.shift() + 1) ? 0 : 1;
    }
  }

  @Override
  public void anchor(About.Anchor about, Choice choice) {
    numbers++;
    numbersBent += says(about.sign().readings(), choice.after()) ? 0 : 1;
  }

  @Override
  public void start(About.Start about, Choice choice) {
    // restarts have no share of a book's own
  }

  @Override
  public void missed(About.Missed about, Choice choice) {
    // nor have systems that were not found: a book has too few
  }

  @Override
  public void candidate(About.Candidate about, Choice choice) {
    // how sure the reader was of a line tells more
  }

  @Override
  public void back(About.Back about, Choice choice) {
    // not a matter of reading
  }

  /** Tells whether some reading says so. */
  private static boolean says(List<Reading> readings, int value) {
    return readings.stream().anyMatch(r -> Marks.number(r.text()) == value);
  }
}
