package org.barmap.exchange.mei;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.plan.Books;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * Every file that is written here is held to {@link MeiSchema}; every reference in it leads
 * somewhere.
 */
class MeiWriterTest {

  @Test
  void everyBarOfTheDemoBookHasItsZone() throws Exception {
    BarMap map = Scores.saltmarsh();
    Document mei = written(map);
    List<Element> measures = all(mei, "measure");
    Map<String, Element> zones = new HashMap<>();
    all(mei, "zone").forEach(z -> zones.put("#" + z.getAttribute("xml:id"), z));

    assertThat(measures).hasSize(map.bars().size());
    assertThat(zones).hasSize(map.bars().size());
    for (int i = 0; i < measures.size(); i++) {
      Element zone = Objects.requireNonNull(zones.get(measures.get(i).getAttribute("facs")));
      assertThat(Integer.parseInt(zone.getAttribute("ulx")))
          .isEqualTo(
              (int)
                  Math.floor(
                      Math.min(
                          map.bars().get(i).outline().topLeft().x(),
                          map.bars().get(i).outline().bottomLeft().x())));
      Element surface = (Element) zone.getParentNode();
      assertThat(surface.getAttribute("n")).isEqualTo("" + map.bars().get(i).page());
    }
    assertThat(all(mei, "mdiv")).hasSize(7);
    assertThat(all(mei, "graphic").get(0).getAttribute("target")).isEqualTo("page-01.png");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1@mr8 9             ; multiRest  ; num         ; 8
          1@n0 2              ; measure    ; metcon      ; false
          1 23@l23A 3         ; measure    ; n           ; 23A
          1 |:2:| 3           ; measure    ; left        ; rptstart
          1 |:2:| 3           ; measure    ; right       ; rptend
          1 |:2/1:| 3/2 4     ; ending     ; n           ; 2
          1@6/8 2@4/4         ; scoreDef   ; meter.count ; 4
          1@k-3 2@k2          ; scoreDef   ; keysig      ; 3f
          1@k-3 2@k2          ; scoreDef   ; keysig      ; 2s
          1@segno 2@ds        ; repeatMark ; func        ; dalSegno
          1@w:♩_=_120         ; tempo      ; midi.bpm    ; 120.0
          """)
  void aSignIsWrittenAsMeiHasIt(String book, String element, String attribute, String value)
      throws Exception {
    assertThat(all(written(Books.book(book)), element))
        .extracting(e -> e.getAttribute(attribute))
        .contains(value);
  }

  /** What the expansions say is what the plan says, bar by bar. */
  @Test
  void theExpansionIsTheOrderOfPlay() throws Exception {
    int said = 0;
    for (int seed = 0; seed < 40; seed++) {
      said += compared(RandomBooks.book(700_000 + seed, Knobs.wild()).map());
    }
    assertThat(said).isGreaterThan(40);
    assertThat(compared(Books.book("1 2/1,2 3/1,2:| 4/3:| 5/4 6 7 8"))).isOne();
    assertThat(compared(Books.book("1 2@segno@to 3 4@ds 5 6@coda 7"))).isOne();
  }

  private static int compared(BarMap map) throws Exception {
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    List<List<String>> orders = new ArrayList<>();
    for (NumberPlan number : plan.numbers()) {
      if (!number.order().isEmpty()) {
        orders.add(number.order().stream().map(NumberPlan.Entry::bar).toList());
      }
    }
    Document mei = written(map);
    int at = 0;
    for (Element expansion : all(mei, "expansion")) {
      List<String> played = new ArrayList<>();
      for (String section : expansion.getAttribute("plist").split(" ")) {
        for (Element measure : all(byId(mei, section.substring(1)), "measure")) {
          int index = Integer.parseInt(measure.getAttribute("xml:id").substring(4));
          played.add(map.bars().get(index - 1).id());
        }
      }
      assertThat(orders).contains(played);
      at++;
    }
    return at;
  }

  @Test
  void textFromThePageIsNeverMarkup() throws Exception {
    String nasty = "</dir><script>\u0000 & \"B\"";
    BarMap book = Books.book("%<7> 1 2");
    BarMap map =
        new BarMap(
            book.format(),
            new Book(nasty, nasty),
            book.pages(),
            book.numbers(),
            List.of(
                book.bars().get(0).toBuilder()
                    .rehearsal(new RehearsalMark("<A>", Enclosure.BOX))
                    .build(),
                book.bars().get(1)),
            List.of());

    Document mei = written(map);
    assertThat(all(mei, "title").get(0).getTextContent()).isEqualTo("</dir><script> & \"B\"");
    assertThat(all(mei, "reh").get(0).getTextContent()).isEqualTo("<A>");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          <measure           | <bar
          meiversion="5.0"   | version="5.0"
          n="1" left         | n="1 or 2" left
          left="rptstart"    | left="repeat"
          num="8"            | num="0"
          ulx="0"            | ulx="-1"
          <staffDef n="1"    | <staffDef
          func="segno"       | func="sign"
          tstamp="1"         | when="1"
          <pubStmt/>         |
          <mRest/>           | <rest/>
          meter.unit="8"     | meter.unit="eighth"
          """)
  void theSchemaFindsWhatIsBroken(String right, @Nullable String wrong) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MeiWriter.write(Books.book("|:1@6/8 2:|@mr8 10@rest 11@segno"), out);
    String mei = out.toString(StandardCharsets.UTF_8);
    assertThat(MeiSchema.broken(mei.getBytes(StandardCharsets.UTF_8))).isEmpty();
    assertThat(mei).contains(right);
    String broken = mei.replace(right, wrong == null ? "" : wrong);
    assertThat(MeiSchema.broken(broken.getBytes(StandardCharsets.UTF_8))).isNotEmpty();
  }

  /** MEI's n holds no spaces, its corners are not negative, its target is one address. */
  @Test
  void whatIsOnThePageIsWrittenAsMeiTakesIt() throws Exception {
    BarMap book = Books.book("%7 1/1,2 2");
    MusicalNumber number = book.numbers().get(0);
    Bar first = book.bars().get(0);
    Page page = book.pages().get(0);
    BarMap map =
        new BarMap(
            book.format(),
            book.book(),
            List.of(
                new Page(page.index(), "page 1.png", page.width(), page.height(), page.systems())),
            List.of(new MusicalNumber("7 A", "", number.firstBar(), number.lastBar(), false)),
            List.of(
                first.toBuilder().label("1 a").outline(Outline.box(-3.5, -1, 200, 100)).build(),
                book.bars().get(1)),
            List.of());
    Document mei = written(map);
    assertThat(all(mei, "mdiv").get(0).getAttribute("n")).isEqualTo("7_A");
    assertThat(all(mei, "ending").get(0).getAttribute("n")).isEqualTo("1,2");
    assertThat(all(mei, "measure").get(0).getAttribute("n")).isEqualTo("1_a");
    assertThat(all(mei, "zone").get(0).getAttribute("ulx")).isEqualTo("0");
    assertThat(all(mei, "graphic").get(0).getAttribute("target")).isEqualTo("page%201.png");
  }

  private static Document written(BarMap map) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MeiWriter.write(map, out);
    assertThat(MeiSchema.broken(out.toByteArray())).isEmpty();
    Document mei = parsed(out);
    assertThat(references(mei)).isSubsetOf(ids(mei));
    return mei;
  }

  private static List<String> ids(Document mei) {
    return all(mei, "*").stream().map(e -> "#" + e.getAttribute("xml:id")).toList();
  }

  private static List<String> references(Document mei) {
    return all(mei, "*").stream()
        .flatMap(e -> Stream.of(e.getAttribute("facs"), e.getAttribute("plist")))
        .flatMap(list -> Stream.of(list.split(" ")))
        .filter(r -> !r.isEmpty())
        .toList();
  }

  private static Document parsed(ByteArrayOutputStream out) throws Exception {
    return DocumentBuilderFactory.newDefaultInstance()
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(out.toByteArray()));
  }

  private static Element byId(Document mei, String id) {
    return Stream.concat(all(mei, "section").stream(), all(mei, "ending").stream())
        .filter(e -> e.getAttribute("xml:id").equals(id))
        .findFirst()
        .orElseThrow();
  }

  private static List<Element> all(Document mei, String name) {
    return all(mei.getDocumentElement(), name);
  }

  private static List<Element> all(Element in, String name) {
    NodeList nodes = in.getElementsByTagName(name);
    List<Element> found = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      found.add((Element) nodes.item(i));
    }
    return found;
  }
}
