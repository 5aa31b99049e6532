package org.barmap.sign;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.stream.IntStream;
import org.barmap.page.Step;

/**
 * Reads the text of signs: numerals, meters and marks with the numeral network, words with it and
 * with the general text model.
 */
final class TextReader implements AutoCloseable {

  /**
   * Words our own reader is this sure of need no second model: believed half, it could not say
   * otherwise.
   */
  private static final double SURE = 0.75;

  /** Share of the general model's own probability it is believed with. */
  private static final double TRUST = 0.5;

  /**
   * Share of a small letter's probability that stays with it where its shape is like a capital's.
   */
  private static final double SMALL_ALIKE = 0.1;

  private final TextNet numerals = new TextNet("numerals");
  private final TextNet phrases;
  private final WordNet words;

  TextReader() {
    try {
      phrases = new TextNet("words");
    } catch (RuntimeException e) {
      numerals.close();
      throw e;
    }
    try {
      words = new WordNet();
    } catch (RuntimeException e) {
      numerals.close();
      phrases.close();
      throw e;
    }
  }

  /** A sign in its strip. */
  record Task(StripImage strip, RawSign sign) {}

  /** Returns kind and readings of each sign, in the order given; signs without text keep theirs. */
  List<KindByText.Text> read(List<Task> tasks) {
    List<Task> texts = tasks.stream().filter(t -> isRead(t.sign)).toList();
    List<List<List<Reading>>> read = both(texts);
    List<KindByText.Text> settled =
        IntStream.range(0, texts.size())
            .parallel()
            .mapToObj(i -> text(texts.get(i), read.get(i)))
            .toList();
    List<KindByText.Text> all = new ArrayList<>();
    int next = 0;
    for (Task t : tasks) {
      all.add(
          isRead(t.sign)
              ? settled.get(next++)
              : new KindByText.Text(t.sign.kind(), t.sign.readings()));
    }
    return all;
  }

  /** Reads words with the reader of words and everything else with that of numerals. */
  private List<List<List<Reading>>> both(List<Task> texts) {
    List<TextNet.Task> crops = texts.parallelStream().map(TextReader::crop).toList();
    List<List<List<Reading>>> all = new ArrayList<>(Collections.nCopies(crops.size(), List.of()));
    List<TextNet.Run> runs = new ArrayList<>();
    for (boolean wordy : new boolean[] {true, false}) {
      TextNet net = wordy ? phrases : numerals;
      List<Integer> own =
          IntStream.range(0, crops.size())
              .filter(i -> isWordy(texts.get(i).sign.kind()) == wordy)
              .boxed()
              .toList();
      runs.addAll(net.runs(crops, own));
    }
    TextNet.readAll(runs, all);
    return all;
  }

  private static boolean isWordy(SignKind kind) {
    return kind == SignKind.WORD || kind == SignKind.HEADING;
  }

  private static TextNet.Task crop(Task t) {
    long start = Step.start();
    Grammar own = Grammar.of(t.sign.kind());
    Crop crop = Crop.of(t.strip, Bracket.numerals(t.sign));
    Step.CROPS.done(start);
    return new TextNet.Task(
        crop, isMark(t.sign.kind()) ? List.of(own, Grammar.REHEARSAL, Grammar.FREE) : List.of(own));
  }

  private KindByText.Text text(Task t, List<List<Reading>> read) {
    SignKind kind = t.sign.kind();
    KindByText.Text text = new KindByText.Text(kind, read.get(0));
    if (isMark(kind)) {
      text = KindByText.settle(t.strip, t.sign, read.get(0), read.get(1), read.get(2));
    } else if (kind == SignKind.WORD) {
      text = KindByText.settle(t.strip, t.sign, read.get(0), List.of(), read.get(0));
    }
    return switch (text.kind()) {
      case WORD, HEADING -> new KindByText.Text(text.kind(), words(t, text.readings()));
      case REHEARSAL -> new KindByText.Text(text.kind(), capitals(text.readings()));
      default -> text;
    };
  }

  private static boolean isMark(SignKind kind) {
    return kind == SignKind.REHEARSAL || kind == SignKind.BAR_NUMBER;
  }

  /**
   * Of letters alike in both cases capitals are the rule: a crop doesn't show how tall its letter
   * is.
   */
  static List<Reading> capitals(List<Reading> readings) {
    java.util.Map<String, Double> p = new java.util.LinkedHashMap<>();
    for (Reading r : readings) {
      boolean small = "cosuvwxz".indexOf(r.text().charAt(0)) >= 0;
      double kept = small ? SMALL_ALIKE * r.probability() : r.probability();
      p.merge(r.text(), kept, Double::sum);
      if (small) {
        String capital = r.text().substring(0, 1).toUpperCase(java.util.Locale.ROOT);
        p.merge(capital + r.text().substring(1), r.probability() - kept, Double::sum);
      }
    }
    return p.entrySet().stream()
        .map(e -> new Reading(e.getKey(), e.getValue()))
        .sorted(java.util.Comparator.comparingDouble((Reading r) -> -r.probability()))
        .toList();
  }

  /**
   * Reads lines of text, word by word, so that a long line isn't squeezed.
   *
   * @param worth tells of a line and what our own reader says whether the general model is asked
   */
  List<Reading> lines(List<Task> lines, BiPredicate<Task, String> worth) {
    List<List<Task>> words =
        lines.parallelStream()
            .map(
                line ->
                    TextLine.words(line.strip, line.sign).stream()
                        .map(w -> new Task(line.strip, w))
                        .toList())
            .toList();
    List<Task> flat = words.stream().flatMap(List::stream).toList();
    List<List<Reading>> own = phrases.read(flat.parallelStream().map(TextReader::word).toList());
    List<Integer> first = new ArrayList<>();
    int next = 0;
    for (List<Task> w : words) {
      first.add(next);
      next += w.size();
    }
    return IntStream.range(0, lines.size())
        .parallel()
        .mapToObj(
            i -> {
              List<Task> w = words.get(i);
              List<List<Reading>> said = own.subList(first.get(i), first.get(i) + w.size());
              Reading line = line(w, said, false);
              return worth.test(lines.get(i), line.text()) ? line(w, said, true) : line;
            })
        .toList();
  }

  private Reading line(List<Task> words, List<List<Reading>> own, boolean both) {
    StringBuilder text = new StringBuilder();
    double sum = 0;
    for (int i = 0; i < words.size(); i++) {
      Task word = words.get(i);
      List<Reading> best = own.get(i);
      if (TextLine.isDash(word.strip, word.sign)) {
        best = List.of(new Reading("-", 1));
      } else if (both) {
        best = words(word, best);
      }
      if (!best.isEmpty()) {
        String said = best.get(0).text();
        boolean digits = said.matches("\\d.*") && text.toString().matches(".*\\d");
        boolean close = i > 0 && TextLine.close(words.get(i - 1).sign, word.sign);
        text.append(text.isEmpty() || (digits && close) ? "" : " ").append(said);
        sum += best.get(0).probability();
      }
    }
    return new Reading(text.toString(), words.isEmpty() ? 0 : sum / words.size());
  }

  private static TextNet.Task word(Task word) {
    long start = Step.start();
    Crop crop = Crop.of(word.strip, word.sign);
    Step.CROPS.done(start);
    return new TextNet.Task(crop, Grammar.FREE);
  }

  private List<Reading> words(Task task, List<Reading> own) {
    if (!own.isEmpty() && own.get(0).probability() >= SURE) {
      return own;
    }
    long start = Step.start();
    Crop crop = Crop.of(task.strip, task.sign, WordNet.HEIGHT, WordNet.MOST);
    Step.CROPS.done(start);
    start = Step.start();
    Optional<Reading> general = words.read(crop);
    Step.WORDS.done(start);
    return general.map(g -> merge(own, g)).orElse(own);
  }

  /**
   * The surer of both models first. The general model knows neither spaces nor note values, so it
   * only wins where ours is lost; where both read the same letters, ours has the better spaces.
   */
  static List<Reading> merge(List<Reading> own, Reading general) {
    List<Reading> all = new ArrayList<>();
    double agreed = 0;
    for (Reading r : own) {
      if (agreed == 0 && letters(r.text()).equals(letters(general.text()))) {
        agreed = general.probability();
        all.add(new Reading(r.text(), Math.max(r.probability(), agreed)));
      } else {
        all.add(r);
      }
    }
    if (agreed == 0) {
      all.add(new Reading(general.text(), TRUST * general.probability()));
    }
    double sum = Math.max(1, all.stream().mapToDouble(Reading::probability).sum());
    return all.stream()
        .map(r -> new Reading(r.text(), r.probability() / sum))
        .sorted(java.util.Comparator.comparingDouble((Reading r) -> -r.probability()))
        .toList();
  }

  private static String letters(String text) {
    return text.toLowerCase(java.util.Locale.ROOT).replaceAll("[^a-z0-9]", "");
  }

  /** What already says what it reads isn't read again. */
  private static boolean isRead(RawSign s) {
    return hasText(s.kind()) && s.readings().isEmpty();
  }

  private static boolean hasText(SignKind kind) {
    return switch (kind) {
      case COUNT, METER, REHEARSAL, BAR_NUMBER, ENDING, WORD, HEADING, KEY -> true;
      default -> false;
    };
  }

  @Override
  public void close() {
    numerals.close();
    phrases.close();
    words.close();
  }
}
