package org.barmap.plan.words.number;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** What is said of two numbers: how one follows the other, or which comes first. */
public final class Between {
  private static final Pattern NO_APPLAUSE =
      phrase(
          "\\b(?:no|not|without|don't|do\\s+not|never|ignore|skip|over|through)\\b[^.]{0,24}\\b(?:applause|clap\\w*|hand)\\b");
  private static final Pattern APPLAUSE = phrase("\\b(?:applause|clap(?:s|ping)?|ovation)\\b");
  private static final Pattern AS_ONE = phrase("\\bsegue\\s+as\\s+one\\b|\\bas\\s+one\\b");
  private static final Pattern AT_ONCE =
      phrase(
          "\\battacca\\b|\\bstraight\\b|\\bdirect(?:ly)?\\b|\\bimmediate(?:ly)?\\b|\\bright\\s+(?:in|on|away|after|out)|\\bat\\s+once\\b|\\bnon-?stop\\b"
              + "|\\b(?:no|without(?:\\s+an?y?)?|zero)\\s+(?:break|pause|gap|stop|stopping|applause|talk\\w*|dialogue|space|air|breath)\\b|\\b(?:don't|do\\s+not|doesn't|never)\\s+(?:stop|wait|pause|break)\\b|\\b(?:runs?|go(?:es)?|flows?|crash\\w*|bleeds?|slams?|dovetails?|leads?)\\s+(?:\\w+\\s+)?in\\s?to\\b|\\bseamless\\w*");
  private static final Pattern ON_CUE =
      phrase(
          "\\bsegues?\\b|\\b(?:cue|downbeat|nod|signal|beat\\s+from\\s+me)\\b|\\bwait\\s+for\\s+me\\b");
  private static final Pattern APART =
      phrase(
          "\\b(?:dialogue|scene|break|pause|talk\\w*|speech(?:es)?|monologue|full\\s+stop|book\\s+scene|lines?)\\b");
  private static final Pattern OFF =
      phrase(
          "\\b(?:attacca|segue)\\s+(?:is\\s+)?(?:off|out|gone|cancelled)\\b|\\bno\\s+(?:more\\s+)?(?:attacca|segue)\\b");
  private static final Pattern BARS =
      phrase(
          "\\b(?:cut|vamp|bars?|tacet|repeat|insert|hold\\s+bar|transpos\\w+|tempo)\\b|\\b\\d|\\b(?-i:[B-HJ-Z])\\b");
  private static final Pattern BACK =
      phrase("\\b(?:after|follows?|following|out\\s+of|from|on\\s+the\\s+applause|behind)\\b.*");
  private static final Pattern LEADS =
      phrase(
          ".*\\b(?:after|from|between|end\\s+of|chord\\s+of|when|of|once|out\\s+of)\\s*(?:the\\s+)?");
  private static final String SMALL =
      "(?:'s\\s+|(?:moving|shifting|shifted|it|it's|music|number|song|now|is|comes|goes|happens|moves|moved|to|up|straight|right|will|be|played|plays|then|just|should|gets?|go|come|sits|going|needs|must|actually|instead|in|the|show|directly|immediately|sung|done|placed|put|has|been)\\s+|,\\s*)*";
  private static final Pattern ORDER =
      phrase(
          "\\s*"
              + SMALL
              + "(before|after|ahead\\s+of|in\\s+front\\s+of|behind|prior\\s+to|follows|following)\\s*(?:the\\s+)?");
  private static final Pattern SWAP =
      phrase(
          "\\b(?:swap|swapped|swapping|switching|switch|switched|exchange|trade|reverse[ds]?|change\\s+places|flip(?:ped)?|other\\s+way\\s+round)\\b");

  /** A number gets another place in the show; "straight" then says where, and not how. */
  private static final Pattern MOVED =
      phrase("\\b(?:mov(?:e|es|ed|ing)|shift(?:s|ed|ing)?|new\\s+order|running\\s+order)\\b");

  /** Doesn't follow at once any more. */
  private static final Pattern NOT_AT_ONCE =
      phrase(
          "\\b(?:not|\\w+n't|never|no\\s+longer)\\s+(?:\\w+\\s+){0,2}(?:follow\\w*|go(?:es)?|run\\w*|lead\\w*|attacca|segue|straight|direct\\w*|immediate\\w*)\\b");

  private Between() {}

  /** Returns the sentence with its number first, as the other readers know it. */
  public static Optional<String> line(String text, List<Mentions.Mention> mentions) {
    List<String> labels = mentions.stream().map(Mentions.Mention::label).distinct().toList();
    String rest = Mentions.without(text, mentions);
    if (labels.size() == 1 && mentions.size() == 1) {
      return alone(text, mentions.get(0), rest);
    }
    if (labels.size() != 2 || mentions.size() > 3) {
      return Optional.empty();
    }
    if (BARS.matcher(rest).find()) {
      return Optional.empty();
    }
    Mentions.Mention one = mentions.get(0);
    Mentions.Mention other = mentions.get(1);
    if (phrase("\\b(?:out(?!\\s+of\\b)|gone|dropped)\\b").matcher(text).find()) {
      return Optional.empty();
    }
    if (SWAP.matcher(rest).find()) {
      return Optional.of("swap " + one.label() + " and " + other.label());
    }
    String between = text.substring(one.end(), Math.max(one.end(), other.start()));
    Optional<String> how =
        MOVED.matcher(rest).find() ? Optional.empty() : how(OFF.matcher(rest).replaceAll(" "));
    var order = ORDER.matcher(between + words(text, other));
    if (how.isEmpty()) {
      return order.matches()
          ? Optional.of(
              "No. "
                  + one.label()
                  + (order.group(1).matches("(?i)after|behind|follow.*") ? " after" : " before")
                  + " No. "
                  + other.label())
          : Optional.empty();
    }
    boolean turned =
        BACK.matcher((between + words(text, other)).strip()).find()
            && !LEADS.matcher(text.substring(0, one.start()) + words(text, one)).matches();
    String from = turned ? other.label() : one.label();
    String to = turned ? one.label() : other.label();
    return Optional.of(
        "No. "
            + from
            + ": "
            + (how.get().equals("dialogue")
                ? "dialogue before No. " + to
                : how.get() + " to " + to));
  }

  /** "No applause after 4, straight on": how the next one follows. */
  private static Optional<String> alone(String text, Mentions.Mention one, String rest) {
    String before = text.substring(0, one.start()) + words(text, one);
    boolean behind =
        phrase(".*\\b(?:after|from|out\\s+of|end\\s+of|following)\\s*(?:the\\s+)?")
            .matcher(before)
            .matches();
    boolean bare =
        !BARS.matcher(rest).find()
            && !phrase(".*\\b(?:to|into|from|at|vamp|hold|play)\\b.*")
                .matcher(
                    rest.replaceFirst("(?i)\\b(?:after|from|out\\s+of|end\\s+of|following)\\b", ""))
                .matches();
    return behind && bare
        ? how(rest)
            .map(h -> "No. " + one.label() + ": " + (h.equals("dialogue") ? "dialogue follows" : h))
        : Optional.empty();
  }

  /** The small word that was taken for a part of the number's name: "in No. 5". */
  private static String words(String text, Mentions.Mention mention) {
    return text.substring(mention.start(), mention.end())
        .replaceFirst("(?i)(?:(?:no|nr|num|number)\\b|#|\\d|\\p{Lu}).*$", "");
  }

  private static Optional<String> how(String rest) {
    if (NOT_AT_ONCE.matcher(rest).find()) {
      return APART.matcher(rest).find() ? Optional.of("dialogue") : Optional.empty();
    }
    boolean no = NO_APPLAUSE.matcher(rest).find();
    if (APPLAUSE.matcher(rest).find() && !no) {
      return Optional.of("applause segue");
    }
    if (AS_ONE.matcher(rest).find()) {
      return Optional.of("segue as one");
    }
    if (no || AT_ONCE.matcher(rest).find()) {
      return Optional.of("attacca");
    }
    if (ON_CUE.matcher(rest).find()) {
      return Optional.of("segue");
    }
    return APART.matcher(rest).find() ? Optional.of("dialogue") : Optional.empty();
  }
}
