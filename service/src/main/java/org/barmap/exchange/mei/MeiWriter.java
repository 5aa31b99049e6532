package org.barmap.exchange.mei;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;

/**
 * Writes a bar map's structure as MEI 5: a zone of its page for every bar, a movement for every
 * number, measures with their barlines, meters, keys, rests, marks and words, and an expansion that
 * says in which order its sections and endings are played. A bar of music is empty space; a
 * multi-bar rest is one measure.
 */
public final class MeiWriter {
  private static final String NAMESPACE = "http://www.music-encoding.org/ns/mei";
  private static final String HEAD =
      """
      <?xml version="1.0" encoding="UTF-8"?>
      <?xml-model href="https://music-encoding.org/schema/5.0/mei-CMN.rng" \
      type="application/xml" schematypens="http://relaxng.org/ns/structure/1.0"?>""";

  private final BarMap map;
  private final Xml xml;
  private final Map<Integer, Page> pages = new HashMap<>();
  private final Map<Bar, Integer> index = new IdentityHashMap<>();
  private int sections;

  private MeiWriter(BarMap map, Xml xml) {
    this.map = map;
    this.xml = xml;
    map.pages().forEach(p -> pages.putIfAbsent(p.index(), p));
    for (int i = 0; i < map.bars().size(); i++) {
      index.put(map.bars().get(i), i + 1);
    }
  }

  /**
   * Writes the book; the stream stays open.
   *
   * @throws IllegalArgumentException when there are no bars
   */
  public static void write(BarMap map, OutputStream out) throws IOException {
    if (map.bars().isEmpty()) {
      throw new IllegalArgumentException("there are no bars to write");
    }
    try {
      out.write(HEAD.getBytes(StandardCharsets.UTF_8));
      XMLStreamWriter writer =
          XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out, "UTF-8");
      new MeiWriter(map, new Xml(writer)).document();
      writer.flush();
    } catch (XMLStreamException e) {
      throw new IOException("MEI could not be written", e);
    }
  }

  private void document() throws XMLStreamException {
    xml.open("mei", "xmlns", NAMESPACE, "meiversion", "5.0");
    xml.open("meiHead").open("fileDesc").open("titleStmt");
    xml.open("title").text(map.book().title()).close().close();
    xml.empty("pubStmt").close();
    xml.open("encodingDesc").open("appInfo").open("application");
    xml.open("name").text("barmap").close().close().close().close().close();
    xml.open("music");
    facsimile();
    xml.open("body");
    List<NumberPlan> plans = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers();
    List<MusicalNumber> numbers = BookNumbers.of(map);
    if (numbers.stream().allMatch(n -> map.barsOf(n).isEmpty())) {
      boolean whole = map.numbers().isEmpty();
      movement("", "", map.bars(), whole ? plans.get(0).order() : List.of());
    }
    for (int i = 0; i < numbers.size(); i++) {
      MusicalNumber number = numbers.get(i);
      List<Bar> bars = map.barsOf(number);
      if (!bars.isEmpty()) {
        movement(
            number.label(),
            (BookNumbers.spoken(number.label()) + " " + number.title()).strip(),
            bars,
            plans.size() == numbers.size() ? plans.get(i).order() : List.of());
      }
    }
    xml.close().close().close();
  }

  private void facsimile() throws XMLStreamException {
    if (pages.isEmpty()) {
      return;
    }
    Map<Integer, List<Bar>> onPage = map.bars().stream().collect(Collectors.groupingBy(Bar::page));
    xml.open("facsimile");
    for (Page page : pages.values().stream().sorted((a, b) -> a.index() - b.index()).toList()) {
      xml.open("surface", "xml:id", "surface-" + page.index(), "n", "" + page.index());
      box(Outline.box(0, 0, page.width(), page.height()));
      xml.empty(
          "graphic",
          "target",
          address(page.source()),
          "width",
          page.width() + "px",
          "height",
          page.height() + "px");
      for (Bar bar : onPage.getOrDefault(page.index(), List.of())) {
        xml.open("zone", "xml:id", "zone-" + index.get(bar), "type", "measure");
        box(bar.outline());
        xml.close();
      }
      xml.close();
    }
    xml.close();
  }

  /** A file's name as one address: spaces would part it into several. */
  private static String address(String file) {
    try {
      return new URI(null, null, file, null).toASCIIString();
    } catch (URISyntaxException e) {
      return Xml.word(file);
    }
  }

  /** The upright box around an outline, in whole pixels on the page, as MEI wants it. */
  private void box(Outline o) throws XMLStreamException {
    corner("ulx", Math.floor(Math.min(o.topLeft().x(), o.bottomLeft().x())));
    corner("uly", Math.floor(Math.min(o.topLeft().y(), o.topRight().y())));
    corner("lrx", Math.ceil(Math.max(o.topRight().x(), o.bottomRight().x())));
    corner("lry", Math.ceil(Math.max(o.bottomLeft().y(), o.bottomRight().y())));
  }

  private void corner(String name, double pixels) throws XMLStreamException {
    xml.attribute(name, Long.toString((long) Math.max(0, pixels)));
  }

  private void movement(String label, String title, List<Bar> bars, List<NumberPlan.Entry> played)
      throws XMLStreamException {
    MeasureElements measures = new MeasureElements(xml);
    Segments segments = Segments.of(bars, played);
    int first = sections + 1;
    sections += segments.starts().size();
    xml.open("mdiv", "n", Xml.word(label), "label", title);
    xml.open("score");
    measures.begin(bars.get(0), map.book().part());
    xml.open("section");
    if (!segments.order().isEmpty()) {
      List<String> order = new ArrayList<>();
      segments.order().forEach(s -> order.add("#section-" + (first + s)));
      xml.empty("expansion", "xml:id", "played-" + first, "plist", String.join(" ", order));
    }
    for (int s = 0; s < segments.starts().size(); s++) {
      int from = segments.starts().get(s);
      List<Integer> ending = bars.get(from).ending();
      String n = ending.stream().map(String::valueOf).collect(Collectors.joining(","));
      xml.open(ending.isEmpty() ? "section" : "ending", "xml:id", "section-" + (first + s), "n", n);
      for (int i = from; i < segments.end(s, bars.size()); i++) {
        Bar bar = bars.get(i);
        measures.measure(
            bar, Optional.ofNullable(index.get(bar)).orElse(0), pages.containsKey(bar.page()));
      }
      xml.close();
    }
    xml.close().close().close();
  }
}
