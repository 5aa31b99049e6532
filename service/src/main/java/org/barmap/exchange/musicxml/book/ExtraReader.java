package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.EnclosureShape;
import org.audiveris.proxymusic.FiguredBass;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.Print;
import org.audiveris.proxymusic.ScorePartwise.Part.Measure;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.Transpose;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Enclosure;
import org.barmap.map.Word;

/** Reads what a book takes of one part beyond what a second reading does, measure by measure. */
final class ExtraReader {
  private static final int MOST_WORDS = 40;
  private static final int SEMITONES = 12;

  /** Quarters a minute that a metronome mark may say. */
  private static final double SLOWEST = 20;

  private static final double FASTEST = 400;

  private final Lengths lengths = new Lengths();
  private int repeats;
  private boolean slashes;
  private double played;

  private List<Word> words = List.of();
  private Set<Word> shared = Set.of();
  private Map<String, Integer> left = Map.of();
  private List<String> remarks = List.of();
  private Optional<Double> tempo = Optional.empty();
  private Enclosure enclosure = Enclosure.BOX;

  /** Returns what is in each measure; the reader is used up then. */
  List<Extra> read(List<Measure> measures) {
    return measures.stream().map(this::one).toList();
  }

  private Extra one(Measure measure) {
    begin();
    boolean newLine = false;
    boolean newPage = false;
    for (Object o : measure.getNoteOrBackupOrForward()) {
      lengths.take(o);
      if (o instanceof Attributes a) {
        attributes(a);
      } else if (o instanceof Print p) {
        newLine |= p.getNewSystem() == YesNo.YES;
        newPage |= p.getNewPage() == YesNo.YES;
      } else if (o instanceof Direction d) {
        direction(d);
      } else if (o instanceof Sound s) {
        sound(s);
      } else if (o instanceof Barline b) {
        barline(b);
      } else if (o instanceof Harmony) {
        leaves("chord symbols");
      } else if (o instanceof FiguredBass) {
        leaves("figured bass");
      }
    }
    if (lengths.lyrics()) {
      leaves("words that are sung");
    }
    return new Extra(
        words,
        shared,
        tempo,
        newLine,
        newPage,
        repeats,
        lengths.idle() && !slashes,
        enclosure,
        lengths.all(),
        lengths.silentStart(),
        lengths.silentEnd(),
        left,
        remarks);
  }

  private void begin() {
    lengths.begin();
    words = new ArrayList<>();
    shared = new HashSet<>();
    left = new LinkedHashMap<>();
    remarks = new ArrayList<>();
    tempo = Optional.empty();
    enclosure = Enclosure.BOX;
  }

  private void barline(Barline b) {
    if (b.getRepeat() != null && b.getRepeat().getAfterJump() == YesNo.YES) {
      remarks.add("The file plays the repeat that ends here again after a D.C. or D.S.");
    }
  }

  private void attributes(Attributes a) {
    for (MeasureStyle style : a.getMeasureStyle()) {
      if (style.getMeasureRepeat() != null) {
        boolean starts = style.getMeasureRepeat().getType() != StartStop.STOP;
        repeats = starts ? bars(style.getMeasureRepeat().getValue()) : 0;
      }
      if (style.getSlash() != null) {
        slashes = style.getSlash().getType() != StartStop.STOP;
      }
    }
    a.getTime().stream().findFirst().ifPresent(this::time);
    a.getTranspose().stream().findFirst().ifPresent(this::transpose);
    if (!a.getClef().isEmpty() && lengths.all() + played > 0) {
      leaves("changes of clef");
    }
    played = 1;
  }

  private static int bars(String text) {
    return text != null && text.strip().matches("[1-9]") ? Integer.parseInt(text.strip()) : 1;
  }

  private void time(Time time) {
    if (time.getSenzaMisura() != null) {
      remarks.add("Without meter from here on (senza misura): how long its bars last is not known");
    } else if (time.getTimeSignature().size() > 2
        || time.getTimeSignature().stream()
            .anyMatch(e -> String.valueOf(e.getValue()).contains("+"))) {
      remarks.add("The meter here is made of several; it is counted as their sum");
    }
  }

  private void transpose(Transpose t) {
    int chromatic = t.getChromatic() == null ? 0 : t.getChromatic().intValue();
    if (chromatic % SEMITONES != 0) {
      remarks.add(
          "From here on the part is written for an instrument that sounds "
              + Math.abs(chromatic)
              + (Math.abs(chromatic) == 1 ? " half tone " : " half tones ")
              + (chromatic < 0 ? "lower" : "higher")
              + "; keys are as written");
    }
  }

  private void direction(Direction d) {
    Texted texted = Texted.of(d);
    boolean playsTempo = d.getSound() != null && d.getSound().getTempo() != null;
    texted
        .word()
        .ifPresent(
            word -> {
              if (words.size() >= MOST_WORDS) {
                leaves("words beyond " + MOST_WORDS + " at one bar");
                return;
              }
              words.add(word);
              if (playsTempo || d.getDirective() == YesNo.YES || Texted.forAll(word)) {
                shared.add(word);
              }
            });
    if (playsTempo && texted.word().flatMap(w -> box(Texted.tempo(w))).isEmpty()) {
      sound(d.getSound());
    } else if (texted.relation() && !playsTempo) {
      remarks.add("A tempo is given here by two note values; say how fast it is");
    }
    for (DirectionType type : d.getDirectionType()) {
      if (!type.getDynamics().isEmpty() || type.getWedge() != null) {
        leaves("dynamics");
      }
      for (FormattedTextId mark : type.getRehearsal()) {
        enclosure = enclosure(mark.getEnclosure());
      }
    }
  }

  private static Optional<Double> box(java.util.OptionalDouble value) {
    return value.isPresent() ? Optional.of(value.getAsDouble()) : Optional.empty();
  }

  private void sound(Sound s) {
    double perMinute = s.getTempo() == null ? 0 : s.getTempo().doubleValue();
    if (perMinute >= SLOWEST && perMinute <= FASTEST) {
      tempo = tempo.or(() -> Optional.of(perMinute));
    } else if (s.getTempo() != null) {
      remarks.add("The file plays a tempo here that no metronome has; it is left out");
    }
    if (s.getTimeOnly() != null && !s.getTimeOnly().isBlank()) {
      remarks.add("What the file plays here holds for some times through only; look which");
    }
  }

  private void leaves(String what) {
    left.merge(what, 1, Integer::sum);
  }

  private static Enclosure enclosure(EnclosureShape shape) {
    if (shape == null) {
      return Enclosure.BOX;
    }
    return switch (shape) {
      case CIRCLE, OVAL -> Enclosure.CIRCLE;
      case NONE -> Enclosure.NONE;
      default -> Enclosure.BOX;
    };
  }
}
