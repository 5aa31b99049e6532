package org.barmap.plan.reference.books;

import static org.barmap.plan.reference.books.Feature.*;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Random books with random changes, from simple to hostile; the same seed gives the same book. */
public final class RandomBooks {

  private static final List<String> TEMPO_WORDS =
      List.of(
          "Allegro_(♩_=_120)",
          "♩_=_96",
          "Slow_(♩_=_60)",
          "Broadly",
          "Waltz",
          "Faster",
          "Double_time",
          "Half_time",
          "Tempo_I",
          "rit.",
          "a_tempo",
          "Poco_meno",
          "Ballad_♩_=_72",
          "Presto");
  private static final List<String> HAND_WORDS =
      List.of(
          "pizz.",
          "arco",
          "con_sord.",
          "senza_sord.",
          "To_Electric_Bass",
          "Electric_Bass",
          "Double_Bass,_arco",
          "To_Tuba",
          "Double_Bass,_pizz.",
          "To_Elec._Bs.");
  private static final List<String> METER_FIGURES =
      List.of("4/4", "3/4", "2/4", "2/2", "6/8", "12/8", "9/8", "5/4", "7/8");
  private static final List<String> PASS =
      List.of("2nd_X_only", "tacet_1st_X", "last_time_only", "1st_X_only");
  private static final List<String> STRAY =
      List.of("@segno", "@coda", "@fine", "@dc", "@ds", "@tocoda", "x3", "{VAMP}", "{No_vamp}");
  private static final List<String> STRAY_LINES =
      List.of("|:", ":|", ":|:", ":|3", "[1", "[2", "[1,2", "]");

  private final Random random;
  private final Knobs knobs;
  private final List<String> tokens = new ArrayList<>();
  private final List<Drawn> drawn = new ArrayList<>();
  private final List<Integer> places = new ArrayList<>();
  private int next;
  private boolean firstRepeat;
  private List<Integer> under = List.of();

  private RandomBooks(long seed, Knobs knobs) {
    this.random = new Random(seed * 0x9E3779B97F4A7C15L + 17);
    this.knobs = knobs;
  }

  /** Returns the book of a seed. */
  public static RandomBook book(long seed, Knobs knobs) {
    return new RandomBooks(seed, knobs).make();
  }

  private RandomBook make() {
    List<String> book = new ArrayList<>();
    List<RandomChanges.Numbered> numbers = new ArrayList<>();
    int many = 1;
    while (many < 6 && chance(NUMBERS)) {
      many++;
    }
    for (int k = 1; k <= many; k++) {
      boolean tacet = many > 1 && chance(TACET_PRINT);
      book.add("No." + k + (tacet ? "!" : ""));
      if (!tacet) {
        number();
        book.addAll(tokens);
        numbers.add(new RandomChanges.Numbered(Integer.toString(k), List.copyOf(drawn)));
      }
    }
    List<String> changes =
        numbers.isEmpty() ? List.of() : new RandomChanges(random, knobs, numbers, many).make();
    return new RandomBook(String.join(" ", book), changes, chance(REPEATS_AFTER_JUMP));
  }

  private boolean chance(Feature feature) {
    return random.nextDouble() < knobs.of(feature);
  }

  /** A feature that came later: where it never comes, the books are those of before. */
  private boolean also(Feature feature) {
    return knobs.of(feature) > 0 && chance(feature);
  }

  /** Whether the next thing is one that makes sense; of wild books nothing is drawn here. */
  private boolean sensible() {
    return knobs.sense() > 0 && random.nextDouble() < knobs.sense();
  }

  /** Whether the repeat that begins with a bar has nothing in it but bars. */
  private boolean plain(int at) {
    int k = places.get(at);
    while (k < tokens.size() && (places.contains(k) || tokens.get(k).startsWith("/"))) {
      k++;
    }
    return k < tokens.size() && tokens.get(k).matches(":\\|2?");
  }

  private <T> T pick(List<T> from) {
    return from.get(random.nextInt(from.size()));
  }

  private void number() {
    tokens.clear();
    drawn.clear();
    places.clear();
    next = chance(PICKUPS) ? 0 : 1;
    firstRepeat = true;
    int sections = 1 + random.nextInt(knobs.sections());
    for (int k = 0; k < sections; k++) {
      section();
    }
    if (chance(JUMPS)) {
      jump();
    }
    Sense.number(tokens, drawn, places);
    decorate();
    for (int k = 0; k < drawn.size(); k++) {
      tokens.set(places.get(k), drawn.get(k).text());
    }
    stray();
  }

  private void section() {
    bars(1 + random.nextInt(4), true);
    if (chance(ENDINGS)) {
      begin();
      bars(1 + random.nextInt(3), false);
      if (also(NESTED_IN_ENDINGS)) {
        tokens.add("|:");
        bars(1 + random.nextInt(2), false);
        tokens.add(":|");
        bars(1, false);
      }
      endings();
      bars(1, true);
    } else if (chance(REPEATS)) {
      boolean forward = begin();
      bars(1 + random.nextInt(3), false);
      if (forward && chance(NESTED)) {
        tokens.add("|:");
        bars(1 + random.nextInt(2), false);
        tokens.add(":|");
        bars(1, false);
      }
      int least = sensible() ? 2 : 1;
      tokens.add(":|" + (chance(TIMES) ? least + random.nextInt(5 - least) : ""));
    }
  }

  /** Writes a forward repeat, or none where the first repeat is open. */
  private boolean begin() {
    boolean open = firstRepeat && chance(OPEN_REPEATS);
    firstRepeat = false;
    if (open) {
      drawn.forEach(d -> d.top = false);
    } else {
      tokens.add("|:");
    }
    return !open;
  }

  private void endings() {
    int many = chance(LONE_ENDINGS) ? 1 : 2 + random.nextInt(2);
    many += many > 1 && also(MORE_ENDINGS) ? 1 + random.nextInt(3) : 0;
    int pass = 1;
    int first = next;
    for (int k = 1; k <= many; k++) {
      under = random.nextInt(4) == 0 ? List.of(pass, pass + 1) : List.of(pass);
      pass += under.size();
      if (k > 1 && chance(ALIKE_ENDINGS)) {
        next = first;
      }
      tokens.add("[" + String.join(",", under.stream().map(String::valueOf).toList()));
      bars(1 + random.nextInt(2), false);
      if (k < many || many == 1 || under.size() > 1) {
        tokens.add(":|");
      } else {
        drawn.get(drawn.size() - 1).wayOut = true;
      }
      tokens.add("]");
    }
    under = List.of();
  }

  private void bars(int many, boolean top) {
    for (int k = 0; k < many; k++) {
      if (!tokens.isEmpty() && chance(PAGES)) {
        tokens.add("//");
      } else if (!tokens.isEmpty() && chance(LINES)) {
        tokens.add("/");
      }
      int count = chance(RESTS) ? 2 + random.nextInt(7) : 0;
      add(new Drawn(next, "", count, top, under));
      next += Math.max(1, count);
      if (count == 0 && next > 1 && chance(LABELS)) {
        add(new Drawn(next - 1, "A", 0, top, under));
      }
    }
  }

  private void add(Drawn bar) {
    bar.begins = !tokens.isEmpty() && tokens.get(tokens.size() - 1).equals("|:");
    places.add(tokens.size());
    tokens.add("");
    drawn.add(bar);
  }

  /** A jump from a bar outside all repeats, with what belongs to it. */
  private void jump() {
    boolean inRepeats = also(SIGNS_IN_REPEATS);
    List<Drawn> tops =
        drawn.stream().filter(d -> d.top || (inRepeats && (d.begins || d.wayOut))).toList();
    if (tops.isEmpty()) {
      return;
    }
    int at = tops.size() / 2 + random.nextInt(tops.size() - tops.size() / 2);
    while (at > 0 && tops.get(at).begins) {
      at--;
    }
    boolean segno = random.nextBoolean() && at > 0;
    int from = segno ? random.nextInt(at) : 0;
    tops.get(at).more += segno ? "@ds" : "@dc";
    if (segno) {
      tops.get(from).more += "@segno";
    }
    if (chance(WITH_REPEATS)) {
      tops.get(at).more += "{with_repeats}";
    }
    if (chance(CODAS) && at + 1 < tops.size()) {
      tops.get(from + random.nextInt(at - from + 1)).more += "@tocoda";
      tops.get(at + 1 + random.nextInt(tops.size() - at - 1)).more += "@coda";
    } else if (chance(FINES)) {
      tops.get(from + random.nextInt(at - from + 1)).more += "@fine";
    }
  }

  private void decorate() {
    char mark = 'A';
    for (int k = 0; k < drawn.size(); k++) {
      Drawn bar = drawn.get(k);
      if (mark <= 'Z' && chance(MARKS)) {
        bar.mark = Character.toString(mark++);
      }
      if (chance(METERS) || (k == 0 && chance(FIRST_BAR))) {
        bar.more += "<" + pick(METER_FIGURES) + ">";
      }
      if (chance(KEYS)) {
        bar.more += "<k" + (random.nextInt(9) - 4) + ">";
      }
      words(bar);
      boolean alone = bar.count == 0 && bar.top && bar.more.indexOf('@') < 0;
      if (alone && chance(MARKED_BARS)) {
        bar.more += "x" + (2 + random.nextInt(2));
      }
      boolean begins = places.get(k) > 0 && tokens.get(places.get(k) - 1).equals("|:");
      if (begins && chance(PRINTED_OPENS) && (!sensible() || plain(k))) {
        bar.more += random.nextBoolean() ? "{VAMP}" : "{safety}";
      }
    }
  }

  private void words(Drawn bar) {
    boolean first = bar == drawn.get(0) && chance(FIRST_BAR);
    if (chance(TEMPOS) || first) {
      bar.more += "{" + pick(TEMPO_WORDS) + "}";
    }
    if (chance(HANDS)) {
      bar.more += "{" + pick(HAND_WORDS) + "}";
    }
    if (chance(BEATS)) {
      bar.more += random.nextBoolean() ? "{in_two}" : "{in_four}";
    }
    if (!bar.top && chance(PASS_WORDS) && (!sensible() || bar.ending.isEmpty())) {
      bar.more += "{" + pick(PASS) + "}";
    }
  }

  private void stray() {
    for (int k = 0; k < drawn.size(); k++) {
      if (chance(STRAY_SIGNS)) {
        int place = places.get(k);
        tokens.set(place, tokens.get(place) + pick(STRAY));
      }
    }
    for (int k = tokens.size() - 1; k > 0; k--) {
      if (chance(STRAY_SIGNS) && random.nextBoolean()) {
        tokens.add(k, pick(STRAY_LINES));
      }
    }
  }
}
