package org.barmap.sign;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReferenceArray;
import java.util.function.BiPredicate;
import java.util.stream.IntStream;
import org.barmap.page.pixel.Spread;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.net.Crop;
import org.barmap.sign.net.Grammar;
import org.barmap.sign.net.TextNet;
import org.barmap.sign.net.WordNet;
import org.barmap.sign.rule.Bracket;
import org.barmap.sign.rule.KindByText;
import org.barmap.sign.rule.TextLine;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.TextSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Reads the text of signs: numerals, meters and marks with the numeral network, words with it and
 * with the general text model.
 */
final class TextReader implements AutoCloseable {

  private static final TextSettings.Readers SET = SignSettings.STANDARD.text().readers();

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
  record Placed(StripImage strip, RawSign sign) {}

  /** Returns kind and readings of each sign, in the order given; signs without text keep theirs. */
  List<KindByText.Text> read(List<Placed> tasks) {
    List<Placed> texts = tasks.stream().filter(t -> isRead(t.sign)).toList();
    List<Said> said = said(texts);
    List<KindByText.Text> settled = Spread.map(texts.size(), i -> text(texts.get(i), said.get(i)));
    List<KindByText.Text> all = new ArrayList<>();
    int next = 0;
    for (Placed t : tasks) {
      all.add(
          isRead(t.sign)
              ? settled.get(next++)
              : new KindByText.Text(t.sign.kind(), t.sign.readings()));
    }
    return all;
  }

  /** What our own reader says by each grammar, and the general model where it was asked. */
  private record Said(List<List<Reading>> own, Optional<Reading> general) {}

  /**
   * Reads words with the reader of words and everything else with that of numerals; the general
   * model, which takes longest, reads the unsure words first, and numerals fill up the time.
   */
  private List<Said> said(List<Placed> texts) {
    List<TextNet.Task> crops = Spread.map(texts.size(), i -> crop(texts.get(i)));
    List<List<List<Reading>>> own = new ArrayList<>(Collections.nCopies(crops.size(), List.of()));
    List<Integer> wordy = new ArrayList<>();
    List<Integer> other = new ArrayList<>();
    for (int i = 0; i < crops.size(); i++) {
      (isWritten(texts.get(i).sign.kind()) ? wordy : other).add(i);
    }
    TextNet.readAll(phrases.runs(crops, wordy), own);
    wordy.removeIf(i -> !isWordy(texts.get(i).sign.kind()) || isSure(own.get(i).get(0)));
    wordy.sort(Comparator.comparingDouble((Integer i) -> -texts.get(i).sign.width()));
    List<TextNet.Run> runs = numerals.runs(crops, other);
    AtomicReferenceArray<Optional<Reading>> general = new AtomicReferenceArray<>(crops.size());
    Spread.over(
        wordy.size() + runs.size(),
        i -> {
          if (i < wordy.size()) {
            general.set(wordy.get(i), general(texts.get(wordy.get(i))));
          } else {
            TextNet.readAll(runs.subList(i - wordy.size(), i - wordy.size() + 1), own);
          }
        });
    return IntStream.range(0, crops.size())
        .mapToObj(i -> new Said(own.get(i), Optional.ofNullable(general.get(i)).flatMap(g -> g)))
        .toList();
  }

  /** What is read by the reader of words; chord symbols and syllables it knows best itself. */
  private static boolean isWritten(SignKind kind) {
    return isWordy(kind) || kind == SignKind.CHORD || kind == SignKind.LYRIC;
  }

  private static boolean isWordy(SignKind kind) {
    return kind == SignKind.WORD || kind == SignKind.HEADING;
  }

  private static TextNet.Task crop(Placed t) {
    long start = WorkStep.start();
    Grammar own = Grammar.of(t.sign.kind());
    Crop crop = Crop.of(t.strip, Bracket.numerals(t.sign));
    WorkStep.CROPS.done(start);
    return new TextNet.Task(
        crop, isMark(t.sign.kind()) ? List.of(own, Grammar.REHEARSAL, Grammar.FREE) : List.of(own));
  }

  private KindByText.Text text(Placed t, Said said) {
    SignKind kind = t.sign.kind();
    List<List<Reading>> read = said.own;
    KindByText.Text text = new KindByText.Text(kind, read.get(0));
    if (isMark(kind)) {
      text = KindByText.settle(t.strip, t.sign, read.get(0), read.get(1), read.get(2));
    } else if (kind == SignKind.WORD) {
      text = KindByText.settle(t.strip, t.sign, read.get(0), List.of(), read.get(0));
    }
    return switch (text.kind()) {
      case WORD, HEADING -> new KindByText.Text(text.kind(), words(t, text.readings(), said));
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
      double kept = small ? SET.smallAlike() * r.probability() : r.probability();
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
  List<Reading> lines(List<Placed> lines, BiPredicate<Placed, String> worth) {
    List<List<Placed>> words =
        Spread.map(
            lines.size(),
            i ->
                TextLine.words(lines.get(i).strip, lines.get(i).sign).stream()
                    .map(w -> new Placed(lines.get(i).strip, w))
                    .toList());
    List<Placed> flat = words.stream().flatMap(List::stream).toList();
    List<List<Reading>> own = phrases.read(Spread.map(flat.size(), i -> word(flat.get(i))));
    List<Integer> first = new ArrayList<>();
    int next = 0;
    for (List<Placed> w : words) {
      first.add(next);
      next += w.size();
    }
    return Spread.map(
        lines.size(),
        i -> {
          List<Placed> w = words.get(i);
          List<List<Reading>> said = own.subList(first.get(i), first.get(i) + w.size());
          Reading line = line(w, said, false);
          return worth.test(lines.get(i), line.text()) ? line(w, said, true) : line;
        });
  }

  private Reading line(List<Placed> words, List<List<Reading>> own, boolean both) {
    StringBuilder text = new StringBuilder();
    double sum = 0;
    for (int i = 0; i < words.size(); i++) {
      Placed word = words.get(i);
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

  private static TextNet.Task word(Placed word) {
    long start = WorkStep.start();
    Crop crop = Crop.of(word.strip, word.sign);
    WorkStep.CROPS.done(start);
    return new TextNet.Task(crop, Grammar.FREE);
  }

  private List<Reading> words(Placed task, List<Reading> own, Said said) {
    // A sign that was taken for a mark at first was not read by the general model.
    return isWordy(task.sign.kind()) && !isSure(own)
        ? said.general.map(g -> merge(own, g)).orElse(own)
        : words(task, own);
  }

  private List<Reading> words(Placed task, List<Reading> own) {
    return isSure(own) ? own : general(task).map(g -> merge(own, g)).orElse(own);
  }

  private static boolean isSure(List<Reading> own) {
    return !own.isEmpty() && own.get(0).probability() >= SET.sure();
  }

  private Optional<Reading> general(Placed task) {
    long start = WorkStep.start();
    Crop crop = Crop.of(task.strip, task.sign, WordNet.HEIGHT, WordNet.MOST);
    WorkStep.CROPS.done(start);
    start = WorkStep.start();
    Optional<Reading> general = words.read(crop);
    WorkStep.WORDS.done(start);
    return general;
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
      all.add(new Reading(general.text(), SET.trust() * general.probability()));
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
      case COUNT, METER, REHEARSAL, BAR_NUMBER, ENDING, WORD, HEADING, KEY, CHORD, LYRIC -> true;
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
