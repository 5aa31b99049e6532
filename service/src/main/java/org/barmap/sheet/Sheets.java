package org.barmap.sheet;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Set;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.barmap.map.BarMap;
import org.barmap.map.Severity;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.page.CheckedPages;

/** Writes sheets as one PDF. */
public final class Sheets {
  static final String CARE = "Pencil only, light, and erased before the book goes back.";
  static final String AGREEMENT =
      "Copying bars of a hired book, also by hand, is for the hire agreement and local copyright"
          + " rules to allow: ask the hirer or the show's librarian.";
  static final String PASTING =
      "Whether anything may be laid into a hired book, and with what tape, is for the hire agreement"
          + " to say: ask the hirer or the show's librarian, and take it out before the book goes"
          + " back.";

  /** Of more the sheet of the changes tells. */
  private static final int MOST_LEFT_OUT = 4;

  /** These are the same in every show, or tell of each change themselves. */
  private static final Set<SheetKind> ALWAYS =
      Set.of(SheetKind.CHANGES, SheetKind.ERASE, SheetKind.ERRATA);

  private Sheets() {}

  /** Returns a PDF without pieces of pages, for a book in which no mark is written yet. */
  public static byte[] pdf(
      BarMap map, ShowChanges changes, Plan plan, List<SheetKind> kinds, SheetSettings settings) {
    return pdf(map, changes, plan, kinds, settings, Pieces.none(), List.of());
  }

  /**
   * Returns a PDF with the sheets asked for, in that order.
   *
   * @param map the book
   * @param changes the show's changes, also those switched off
   * @param plan the plan of that map with those changes
   * @param pieces what comes first after a turn, cut out of the page
   * @param written the marks that stand in the book in pencil
   */
  public static byte[] pdf(
      BarMap map,
      ShowChanges changes,
      Plan plan,
      List<SheetKind> kinds,
      SheetSettings settings,
      Pieces pieces,
      List<PencilMark> written) {
    try (PDDocument document = new PDDocument();
        ByteArrayOutputStream out = new ByteArrayOutputStream()) {
      PDDocumentInformation information = new PDDocumentInformation();
      information.setTitle(map.book().title() + ", " + map.book().part());
      information.setProducer("barmap");
      document.setDocumentInformation(information);
      Typeface type = new Typeface(document);
      Names names = new Names(map, settings.theirs());
      for (SheetKind kind : kinds) {
        String as = settings.dated().map(d -> "As of " + d + ". ").orElse("");
        String book = map.book().title() + ", " + map.book().part() + ". " + as;
        try (Flow flow = new Flow(document, type, settings, book + foot(kind))) {
          flow.title(kind.title());
          checked(flow, plan.checked());
          if (!ALWAYS.contains(kind)) {
            leftOut(flow, plan);
          }
          switch (kind) {
            case RUN_SHEET -> RunSheetPages.write(flow, plan, names);
            case TURNS -> TurnPages.write(flow, plan, names, pieces);
            case RESTS -> RestPages.write(flow, plan, names);
            case CHANGES -> ChangePages.write(flow, changes, plan, names, settings.beside());
            case PENCIL -> PencilPages.write(flow, plan.pencil(), written, names);
            case ERASE -> PencilPages.erase(flow, written, names);
            case STAND ->
                StandPages.write(flow, new StandPages.Show(changes, plan, names), settings);
            case STRIPS -> StripPages.write(flow, map, plan, names);
            case SUBSTITUTE -> SubstitutePages.write(flow, plan, names);
            case ERRATA -> ErrataPages.write(flow, map, plan);
          }
        }
      }
      if (kinds.isEmpty()) {
        throw new IllegalArgumentException("no sheet was asked for");
      }
      document.save(out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e); // fonts are in the jar, the target is memory
    }
  }

  /** Every sheet says at its head how much of the book it can be trusted for. */
  private static void checked(Flow flow, CheckedPages checked) throws IOException {
    if (checked.of() > 0) {
      flow.line(
          checked.pages() == checked.of()
              ? "Every page of the book is checked."
              : checked.pages()
                  + " of "
                  + Saying.many(checked.of(), "page")
                  + " checked; what hangs on the others says so.");
    }
  }

  /** What may hold tonight and isn't in the sheet, as nobody has said which show it is. */
  private static void leftOut(Flow flow, Plan plan) throws IOException {
    List<String> all =
        plan.findings().stream()
            .filter(f -> f.severity() == Severity.DOUBT && f.code().matches("version|early"))
            .map(PlanFinding::text)
            .toList();
    for (String text : all.subList(0, Math.min(MOST_LEFT_OUT, all.size()))) {
      flow.text(text, 0, true, 0);
    }
    if (all.size() > MOST_LEFT_OUT) {
      flow.text(
          all.size() - MOST_LEFT_OUT + " more such changes are left out: see the changes.",
          0,
          true,
          0);
    }
  }

  private static String foot(SheetKind kind) {
    return switch (kind) {
      case PENCIL, ERASE -> CARE;
      case TURNS -> AGREEMENT;
      case STRIPS -> PASTING;
      case ERRATA -> ErrataPages.CAUTION;
      case SUBSTITUTE -> AGREEMENT;
      default -> "";
    };
  }
}
