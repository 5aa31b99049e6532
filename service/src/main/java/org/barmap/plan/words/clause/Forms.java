package org.barmap.plan.words.clause;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.change.term.Transposed;
import org.jspecify.annotations.Nullable;

/** What is counted or measured in a sentence: how often, how many bars, how fast, how far. */
final class Forms {
  private static final String COUNT = "(" + Numerals.CARDINAL + ")";
  private static final String KIND =
      "(?:(?:more|extra|new|additional|empty|blank|full|whole|silent|further|\\d{1,2}/\\d{1,2})\\s+)*";
  private static final Pattern TIMES =
      phrase(
          "(once|twice|thrice)(?:\\s+through)?(?!\\s+(?:she|he|they|you|we|the|it|i)\\b)\\b|"
              + COUNT
              + "(?:\\s*(?:times|time(?!\\s+signature)|x|passes)(?:\\s+through)?\\b(?!\\s+(?:feel|faster|slower))|\\s+(?:in\\s+(?:all|total)|altogether|all\\s+told|total)\\b)|x\\s?(\\d{1,2})\\b");
  private static final Pattern BEAT =
      phrase(
          "(?:the\\s+)?(?:beat\\s+" + Numerals.CARDINAL + "|" + Numerals.ORDINAL + "\\s+beat)\\b");
  private static final Pattern MORE =
      phrase(
          "(?:once|twice)\\s+more\\b|(an?|"
              + Numerals.CARDINAL
              + ")\\s+(?:more|extra|additional|further)\\s+(?:times?|repeats?|rounds?|passes|go(?:es)?|laps?)\\b");
  private static final Pattern BARS =
      phrase(
          "(?:(?:an?\\s+)?(?:extra|additional|new|further)\\s+(?="
              + Numerals.CARDINAL
              + "\\s))?(an?|another|"
              + Numerals.CARDINAL
              + "|(?:an?\\s+)?extra)[\\s-]+("
              + KIND
              + ")(?:bars?|measures?)(?:'s?)?(?![\\w])((?:\\s+(?:of|in))?\\s+\\d{1,2}/\\d{1,2}(?:\\s+(?:bars?|time))?)?(\\s+(?:of\\s+)?(?:rests?|silence|nothing))?(?:\\s+of\\s+(?:music|notes))?");
  private static final Pattern METER =
      phrase(
          "(\\d{1,2})\\s?/\\s?(1|2|4|8|16|32)\\b(?:\\s+time)?|(two|three|four|five|six|seven|nine|twelve|[2-79]|12)[\\s-](two|four|eight|[248])\\b(?=\\s*(?:bars?|measures?|time|meter|now|please|[,.;!]|$|in|at|from|for|and)\\b|\\s*$|\\s*[,.;!])(?:\\s+time)?");
  private static final Pattern BEATS =
      phrase(
          "(?:in|beat\\s+in)\\s+(?:an?\\s+)?(?:slow\\s+|fast\\s+|quick\\s+|moderate\\s+)?(one|two|three|four|six|[1-46])\\b(?!\\s*(?:/|bars?|measures?|before|after|beats?|flats?|sharps?|time))"
              + "|(?:an?\\s+)?(one|two|three|four|six|[1-46])\\s+(?:beats?\\s+)?(?:in|to|per)\\s+(?:a|the|each|every)\\s+bar\\b"
              + "|(one|two|three|four|six|[1-46])\\s+beats?\\s+a\\s+bar\\b");
  private static final Pattern INTERVAL =
      phrase(
          "(?:(?:by\\s+)?(?:an?\\s+|one\\s+|\\d\\s+|two\\s+|three\\s+)?)(?:(?:half|whole|minor|major|perfect)[\\s-]+)?(?:semitones?|steps?|tones?|second|third|fourth|fifth|octave)\\b");
  private static final String NOTE =
      "((?:dotted[\\s-]+)?(?:whole|half|quarter|eighth|crotchet|minim|quaver)s?)(?:[\\s-]+notes?)?";
  private static final Pattern FIGURE =
      phrase(
          "(?:the\\s+)?"
              + NOTE
              + "\\s*(?:=|(?:(?:now|is|are|equals?|equal\\s+to|at|to|goes|about)\\s+)*)\\s*(\\d{2,3})\\b(?:\\s*bpm)?"
              + "|(\\d{2,3})\\s*(?:bpm|beats\\s+(?:per|a)\\s+minute|clicks)(?:\\b)|(\\d{2,3})\\s+(?:to|for)\\s+the\\s+"
              + NOTE);
  private static final Pattern KEY =
      phrase(
          "(?:(?:the\\s+)?key\\s+of\\s+)?((?-i:[A-G])(?:[\\s-]?(?:flat|sharp)|(?-i:b)(?![a-z])|#))(?:[\\s-]+(major|minor))?\\b|(?:(?:the\\s+)?key\\s+of\\s+)?((?-i:[A-G]))[\\s-]+(major|minor)\\b|(?:the\\s+)?key\\s+of\\s+((?-i:[A-G]))\\b");
  private static final Pattern SIGNS =
      phrase("(" + Numerals.CARDINAL + "|no)\\s+(sharps?|flats?)(?:\\s+(?:or|and)\\s+\\w+)?\\b");
  private static final Pattern INSTRUMENT =
      phrase(
          "(?:the\\s+|your\\s+|an?\\s+)?(electric(?:\\s+bass)?|elec\\.?(?:\\s+(?:bass|bs\\.?))?|upright(?:\\s+bass)?|double\\s+bass|string\\s+bass|acoustic(?:\\s+bass)?|fretless(?:\\s+bass)?|bass\\s+guitar|e-bass|(?:5|five)[\\s-]string(?:\\s+bass)?|synth\\s+bass)(?!\\s+(?:player|part))\\b");

  private Forms() {}

  /** Returns the longest that begins at a place of a text. */
  static Optional<Token> at(String text, int from) {
    List<Token> found = new ArrayList<>();
    Matcher m = at(TIMES, text, from);
    if (m.lookingAt()) {
      String n = first(m.group(1), m.group(2), m.group(3)).toLowerCase(Locale.ROOT);
      add(found, Token.Kind.TIMES, Integer.toString(times(n)), m);
    }
    m = at(MORE, text, from);
    if (m.lookingAt()) {
      add(found, Token.Kind.AGAIN, Integer.toString(Math.max(1, more(m))), m);
    }
    m = at(BARS, text, from);
    if (m.lookingAt()) {
      add(found, Token.Kind.BARS, bars(m), m);
    }
    m = at(BEAT, text, from);
    if (m.lookingAt()) {
      add(found, Token.Kind.WORD, m.group(), m);
    }
    m = at(METER, text, from);
    if (m.lookingAt()) {
      add(
          found,
          Token.Kind.METER,
          count(first(m.group(1), m.group(3))) + "/" + count(first(m.group(2), m.group(4))),
          m);
    }
    m = at(BEATS, text, from);
    if (m.lookingAt()) {
      add(
          found,
          Token.Kind.BEATS,
          Integer.toString(count(first(m.group(1), m.group(2), m.group(3)))),
          m);
    }
    measured(text, from, found);
    return found.stream().reduce((a, b) -> b.text().length() > a.text().length() ? b : a);
  }

  private static void measured(String text, int from, List<Token> found) {
    Matcher m = at(INTERVAL, text, from);
    if (m.lookingAt()) {
      String said = m.group().replaceFirst("(?i)^by\\s+", "");
      if (Transposed.semitones(said).isPresent()) {
        add(found, Token.Kind.INTERVAL, said, m);
      }
    }
    m = at(FIGURE, text, from);
    if (m.lookingAt()) {
      String note = first(m.group(1), m.group(5), "").toLowerCase(Locale.ROOT);
      String figure = first(m.group(2), m.group(3), m.group(4));
      String of = note.replaceFirst("(?<=[rfmet])s$", "").replace('-', ' ');
      add(found, Token.Kind.FIGURE, of.isEmpty() ? figure : of + " = " + figure, m);
    }
    m = at(KEY, text, from);
    if (m.lookingAt()) {
      String mode = first(m.group(2), m.group(4), "").toLowerCase(Locale.ROOT);
      String tonic = first(m.group(1), m.group(3), m.group(5)).replaceAll("[\\s-]", " ");
      add(found, Token.Kind.KEY, (tonic + " " + mode).strip(), m);
    }
    m = at(SIGNS, text, from);
    if (m.lookingAt()) {
      add(found, Token.Kind.KEY, m.group(), m);
    }
    m = at(INSTRUMENT, text, from);
    if (m.lookingAt()) {
      add(found, Token.Kind.INSTRUMENT, m.group(1), m);
    }
  }

  private static Matcher at(Pattern pattern, String text, int from) {
    return pattern.matcher(text).region(from, text.length()).useTransparentBounds(true);
  }

  private static void add(List<Token> found, Token.Kind kind, String value, Matcher m) {
    found.add(new Token(kind, value, m.group()));
  }

  private static String first(@Nullable String... groups) {
    for (@Nullable String group : groups) {
      if (group != null) {
        return group;
      }
    }
    return "";
  }

  private static int times(String said) {
    return switch (said) {
      case "once" -> 1;
      case "twice" -> 2;
      case "thrice" -> 3;
      default -> count(said);
    };
  }

  private static int more(Matcher m) {
    return m.group(1) == null
        ? times(m.group().replaceFirst("\\s.*", "").toLowerCase(Locale.ROOT))
        : count(m.group(1));
  }

  private static int count(String said) {
    return said.matches("(?i)an?|another|.*extra") ? 1 : Numerals.value(said).orElse(0);
  }

  /** "2|3/4|rest": how many, in which meter, of what. */
  private static String bars(Matcher m) {
    Matcher meter = phrase("\\d{1,2}/\\d{1,2}").matcher(m.group());
    String rest =
        m.group(4) != null || m.group(2).matches("(?i).*\\b(?:empty|blank|silent)\\b.*")
            ? "rest"
            : "";
    return count(m.group(1)) + "|" + (meter.find() ? meter.group() : "") + "|" + rest;
  }
}
