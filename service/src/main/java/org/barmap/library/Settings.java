package org.barmap.library;

import com.fasterxml.jackson.annotation.JsonAlias;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * How a book's player turns and counts.
 *
 * @param turnSeconds how long a comfortable turn takes, 0.5 to 20
 * @param quickSeconds how long a quick turn takes, 0.2 to 10, at most a comfortable one
 * @param memoryBars how many bars the player trusts to memory, 0 to 32
 * @param changeSeconds how long a change of instrument takes, 1 to 120
 * @param repeatsAfterJump whether repeats are played again after a D.C. or D.S.
 * @param chair what the player holds, and how long changing it takes
 * @param rehearsedAt when the last rehearsal ended; empty until a player says so
 * @param firstPage how the first page lies, {@code left}, {@code right} or {@code single-sheets};
 *     empty until a player says so
 * @param leaves pages that are not bound as the others, {@code inserted} or {@code loose}, by the
 *     id of the page; usually none
 * @param version the version of the show that is planned, "matinee"; empty until a player says so
 * @param director the book that lies beside this one, the director's for instance
 */
public record Settings(
    double turnSeconds,
    double quickSeconds,
    int memoryBars,
    double changeSeconds,
    boolean repeatsAfterJump,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) ChairSettings chair,
    Optional<Instant> rehearsedAt,
    @JsonAlias("binding") Optional<String> firstPage,
    Map<String, String> leaves,
    Optional<String> version,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<Director> director) {

  /**
   * Another part of the show.
   *
   * @param book id of the book; it may be in the bin by now
   * @param pins bars that a person said are the same
   * @param called what that book is called, where the settings left its shelf
   */
  public record Director(
      String book,
      List<Pin> pins,
      @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<String> called) {
    /** Takes a defensive copy; what is absent is empty. */
    public Director {
      book = book == null ? "" : book;
      pins = pins == null ? List.of() : List.copyOf(pins);
      called = called == null ? Optional.empty() : called;
    }

    /** Names a book of the same shelf. */
    public Director(String book, List<Pin> pins) {
      this(book, pins, Optional.empty());
    }

    private boolean isReadable() {
      return Stream.concat(
                  Stream.of(book),
                  pins.stream().flatMap(p -> Stream.of(p.number(), p.here(), p.there())))
              .allMatch(text -> text.length() <= MOST_NAME)
          && pins.size() <= MOST_PINS
          && called.filter(c -> c.length() > MOST_CALLED).isEmpty();
    }
  }

  /**
   * A bar that is the same in two books.
   *
   * @param number label of the musical number
   * @param here the bar in this book, as players say it
   * @param there the bar in the other book
   */
  public record Pin(String number, String here, String there) {
    /** Reads what is absent as empty. */
    public Pin {
      number = number == null ? "" : number;
      here = here == null ? "" : here;
      there = there == null ? "" : there;
    }
  }

  /** As many bars as a person may say are the same. */
  public static final int MOST_PINS = 500;

  /** As long a name of a book, a number or a bar as is taken. */
  private static final int MOST_NAME = 60;

  private static final int MOST_CALLED = 500;

  /** As long a name as a change may give a version. */
  private static final int MOST_LETTERS = 40;

  private static final Set<String> FIRST_PAGES = Set.of("left", "right", "single-sheets");
  private static final Set<String> LEAVES = Set.of("bound", "inserted", "loose");

  /** As many pages as a book may have. */
  private static final int MOST_LEAVES = 5000;

  /** Reads what is absent as not said. */
  public Settings {
    chair = chair == null ? ChairSettings.USUAL : chair;
    rehearsedAt = rehearsedAt == null ? Optional.empty() : rehearsedAt;
    firstPage = firstPage == null ? Optional.empty() : firstPage.map(Settings::now);
    leaves = leaves == null ? Map.of() : Map.copyOf(leaves);
    version = version == null ? Optional.empty() : version.filter(v -> !v.isBlank());
    director = director == null ? Optional.empty() : director;
  }

  /** What holds until a player says otherwise. */
  public static final Settings USUAL =
      new Settings(
          2,
          1,
          4,
          6,
          false,
          ChairSettings.USUAL,
          Optional.empty(),
          Optional.empty(),
          Map.of(),
          Optional.empty(),
          Optional.empty());

  /** Returns what is said now for the words there were before. */
  private static String now(String firstPage) {
    return switch (firstPage) {
      case "odd-right" -> "right";
      case "odd-left" -> "left";
      default -> firstPage;
    };
  }

  /** Returns the same for a book whose pages have other ids. */
  public Settings withLeaves(Map<String, String> other) {
    return with(rehearsedAt, other, director);
  }

  /** Returns the same with another book beside this one, or none. */
  public Settings withDirector(Optional<Director> other) {
    return with(rehearsedAt, leaves, other);
  }

  /** Returns the same after a rehearsal. */
  public Settings withRehearsedAt(Instant ended) {
    return with(Optional.of(ended), leaves, director);
  }

  private Settings with(
      Optional<Instant> ended, Map<String, String> newLeaves, Optional<Director> newDirector) {
    return new Settings(
        turnSeconds,
        quickSeconds,
        memoryBars,
        changeSeconds,
        repeatsAfterJump,
        chair,
        ended,
        firstPage,
        newLeaves,
        version,
        newDirector);
  }

  /** Returns what is out of range, one sentence each; empty when nothing is. */
  public List<String> problems() {
    List<String> problems = new ArrayList<>();
    range(problems, "A turn takes 0.5 to 20 seconds", turnSeconds, 0.5, 20);
    range(problems, "A quick turn takes 0.2 to 10 seconds", quickSeconds, 0.2, 10);
    range(problems, "0 to 32 bars can be trusted to memory", memoryBars, 0, 32);
    range(problems, "A change takes 1 to 120 seconds", changeSeconds, 1, 120);
    Stream.of(
            chair.bowSeconds(),
            chair.muteSeconds(),
            chair.reedSeconds(),
            chair.retuneSeconds(),
            chair.putDownSeconds())
        .flatMap(Optional::stream)
        .forEach(
            s ->
                range(
                    problems,
                    "Getting ready takes 0.1 to 120 seconds",
                    s,
                    ChairSettings.LEAST_SECONDS,
                    ChairSettings.MOST_SECONDS));
    if (!chair.isNamed()) {
      problems.add("An instrument's name has 1 to 60 letters, and a chair at most 20 of them");
    }
    if (director.filter(d -> !d.isReadable()).isPresent()) {
      problems.add("What lies beside the book has names or a list of bars that are too long");
    }
    if (version.filter(v -> v.length() > MOST_LETTERS).isPresent()) {
      problems.add("The name of a version has at most " + MOST_LETTERS + " letters");
    }
    if (quickSeconds > turnSeconds) {
      problems.add("A quick turn takes no longer than a comfortable one");
    }
    if (firstPage.filter(f -> !FIRST_PAGES.contains(f)).isPresent()) {
      problems.add("The first page lies left or right, or the book is single-sheets");
    }
    if (leaves.size() > MOST_LEAVES || !LEAVES.containsAll(leaves.values())) {
      problems.add("A leaf is bound, inserted or loose");
    }
    return problems;
  }

  private static void range(
      List<String> problems, String sentence, double value, double from, double to) {
    if (!(value >= from && value <= to)) {
      problems.add(sentence + ", not " + value);
    }
  }
}
