package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.imageio.ImageIO;
import org.barmap.cli.BadFiles;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/**
 * Pages by a phone's camera: the book is opened to it, pictures with faults are told from good
 * ones, pages appear at the desk, and one is photographed again with its corrections kept; also at
 * the desk itself. Another address of the loopback net stands for the local net.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ShareBrowserTest {

  private static final String PHOTO = "photo-musescore-930003.jpg";

  /** Skin in the light of that photograph, whose paper is half as bright as it could be. */
  private static final Color SKIN = new Color(140, 100, 78);

  @TempDir private Path folder;
  private RunningService service;
  private Browser desk;
  private Browser phone;
  private Api api;
  private String book;

  @BeforeAll
  void open(@TempDir Path data) {
    service = RunningService.start(data, "", List.of("--share=127.0.0.2"));
    desk = Browser.open(service, 1280, 900);
    phone = Browser.open(service.base(), 390, 844);
    api = new Api(service);
    book =
        api.post("/api/books", Map.of("title", "Saltmarsh", "part", "Bass")).path("id").asString();
  }

  @AfterAll
  void close() {
    phone.close();
    desk.close();
    service.close();
  }

  private static Path photo() {
    return Path.of(System.getProperty("barmap.home", ".."), "corpus", "pages", PHOTO);
  }

  private String sources() {
    return String.join(
        " ",
        api.get("/api/books/" + book)
            .path("pages")
            .valueStream()
            .map(p -> p.path("source").asString().replaceAll("-[0-9a-f]{6}\\.jpg", ""))
            .toList());
  }

  private void allRead(int pages) {
    desk.waiting(180).until(d -> isRead(api.get("/api/books/" + book), pages));
  }

  private static boolean isRead(JsonNode now, int pages) {
    return now.path("job").isMissingNode()
        && now.path("pages")
                .valueStream()
                .filter(p -> p.path("state").asString().equals("read"))
                .count()
            == pages;
  }

  @Test
  @Order(1)
  void theDeskLetsAPhoneInAndPagesAppearAsTheyCome() {
    desk.go("/book.html?b=" + book);
    phone.open(service.base().replace("127.0.0.1", "127.0.0.2") + "/phone.html?b=" + book);
    phone.see("h1", "opens with a key only");
    assertThat(phone.script("return document.styleSheets.length"))
        .as("it looks like barmap, by day and by night")
        .isEqualTo(1L);
    assertThat(Axe.violations(phone)).isEmpty();
    desk.click("#share-phone");
    assertThat(desk.see("#share", "nothing else, and no other book").getText())
        .contains("hire agreement");
    desk.waiting(20)
        .until(
            d ->
                desk.script("return document.querySelector('.share-code').naturalWidth > 0")
                    .equals(true));
    assertThat(Axe.violations(desk)).isEmpty();
    phone.open(desk.see(".share-link").getText());
    phone.see("h1", "Saltmarsh, Bass");
    assertThat(phone.path()).isEqualTo("/phone.html?b=" + book);
    assertThat(phone.see("#phone-go").getText()).contains("Photograph page 1");
    phone.files("#shoot", List.of(photo()));
    desk.see(".thumb[data-page='1']");
    allRead(1);
    phone.see(".phone-pages", "Page 1: read");
    assertThat(Axe.violations(phone)).isEmpty();
    assertThat(phone.script("return document.documentElement.scrollWidth <= innerWidth"))
        .isEqualTo(true);
  }

  @Test
  @Order(2)
  void aPictureWithAFaultIsToldAtOnceAndMayBeSentAllTheSame() throws IOException {
    for (Fault fault : Fault.values()) {
      phone.files("#shoot", List.of(fault.made(folder)));
      assertThat(phone.see(".phone-faults").getText()).as(fault.name()).isNotEmpty();
      assertThat(phone.all("[data-fault]")).as(fault.name()).hasSize(1);
      assertThat(phone.attribute("[data-fault]", "data-fault"))
          .isEqualTo(fault.name().toLowerCase(Locale.ROOT));
      assertThat(phone.script("return document.activeElement !== document.body")).isEqualTo(true);
    }
    assertThat(Axe.violations(phone)).isEmpty();
    assertThat(sources()).as("nothing was sent").isEqualTo("phone-001");
    phone.click("#phone-anyway");
    desk.see(".thumb[data-page='2']");
    assertThat(phone.script("return document.activeElement !== document.body")).isEqualTo(true);
    allRead(2);
  }

  @Test
  @Order(3)
  void aPagePhotographedAgainKeepsItsCorrections() {
    String map = "/api/books/" + book + "/map";
    JsonNode bar = api.get(map).path("bars").path(0);
    api.post(
        "/api/books/" + book + "/corrections",
        Map.of(
            "kind",
            "set-rehearsal",
            "bar",
            bar.path("id").asString(),
            "text",
            "QQ",
            "enclosure",
            "box"),
        api.revision(map));
    phone.see(".phone-pages", "Page 2: read");
    phone.click("[aria-label='Photograph page 1 again']");
    String before = api.get("/api/books/" + book).path("pages").path(0).path("id").asString();
    phone.files("#shoot", List.of(photo()));
    phone
        .waiting(120)
        .withMessage(() -> "the old picture stayed: " + phone.mainText())
        .until(d -> !firstPage().equals(before) && sources().split(" ").length == 2);
    phone.see(".toast", "is in its place");
    assertThat(api.get(map).path("bars").path(0).path("rehearsal").path("text").asString())
        .isEqualTo("QQ");
  }

  private String firstPage() {
    return api.get("/api/books/" + book).path("pages").path(0).path("id").asString();
  }

  /** Another browser, over the local net: each sees where the other is. */
  @Test
  @Order(4)
  void aSectionMateWorksOnTheBookAndEachSeesWhereTheOtherIs() {
    Browser mate = phone;
    mate.size(1280, 900);
    desk.click("#share-mate");
    desk.type("dialog [name=name]", "Anna");
    assertThat(Axe.violations(desk)).isEmpty();
    desk.click("dialog [type=submit]");
    desk.see("[data-as=corrector] summary", "Anna");
    assertThat(Axe.violations(desk)).isEmpty();
    mate.open(desk.see("[data-as=corrector] .share-link").getText());
    mate.see(".thumb[data-page='1']");
    mate.script("localStorage.setItem('barmap.who', JSON.stringify('Anna Bird'))");
    desk.script("localStorage.setItem('barmap.who', JSON.stringify('Tom'))");
    String there = service.base().replace("127.0.0.1", "127.0.0.2");
    mate.open(there + "/desk.html?b=" + book + "&p=1");
    String bar = api.get("/api/books/" + book + "/map").path("bars").path(2).path("id").asString();
    mate.point("[data-bar='" + bar + "'] .bar-field");
    desk.see(".thumb[data-page='1'] .mates-here", "AB");
    assertThat(Axe.violations(desk)).isEmpty();
    desk.go(String.valueOf(desk.see("#mates a").getDomAttribute("href")));
    desk.see("[data-bar='" + bar + "'] .mate-bar text", "AB");
    assertThat(desk.attribute("#mates a", "aria-label")).isEqualTo("Anna Bird, correcting, page 1");
    mate.see("[data-bar='" + bar + "'] .mate-bar text", "TO");
    assertThat(Axe.violations(desk)).isEmpty();
    mate.open(there + "/align.html?b=" + book);
    mate.see("#align-guest", "Whoever has the shelf can choose one");
    mate.count("main button", 0, 5);
    mate.open(there + "/road.html?b=" + book);
    mate.see("#no-other-part");
    mate.open(there + "/api/books");
    assertThat(mate.pageSource()).contains("NOT_YOURS");
    mate.open(there + "/");
    mate.see(".thumb[data-page='1']");
    desk.see("#mates span.mate", "AB");
    desk.go("/book.html?b=" + book);
    desk.see("#share-end");
  }

  /** What a reader may not do is offered in no room, and the keys say why they do nothing. */
  @Test
  @Order(5)
  void aReaderIsOfferedNothingThatWouldBeRefused() {
    desk.click("#share-mate");
    desk.type("dialog [name=name]", "Eve");
    desk.choose("dialog [name=as]", "reader");
    desk.click("dialog [type=submit]");
    phone.forgetKeys(); // of several the one counts that may do most
    phone.open(desk.see("[data-as=reader] .share-link").getText());
    String there = service.base().replace("127.0.0.1", "127.0.0.2");
    for (String room : List.of("book", "desk", "road", "turns", "practice", "stand")) {
      phone.open(there + "/" + room + ".html?b=" + book);
      phone.see("#guest", "You can look at this book");
      assertThat((List<?>) phone.script(OFFERED)).as(room).isEmpty();
    }
    phone.open(there + "/desk.html?b=" + book + "&p=1");
    phone.point(".bar-field");
    phone.see(".bar-form");
    assertThat(phone.all(".bar-form :is(input, select, button):not([disabled])")).isEmpty();
    long revision = Long.parseLong(api.revision("/api/books/" + book).replace("\"", ""));
    phone.press("v");
    phone.see(".toast", "Changing it is for whoever owns it");
    assertThat(api.revision("/api/books/" + book)).contains(String.valueOf(revision));
    assertThat(Axe.violations(phone)).isEmpty();
    desk.click("[data-as=reader] .share-stop");
    desk.count("[data-as=reader]", 0, 20);
  }

  /** Things shown that send something which only others may. */
  private static final String OFFERED =
      """
      return [...document.querySelectorAll("[data-for], .tools .btn, #undo-change, #change-words, #read-words, #turn-settings, #choose-files ~ .row .btn, .change input:not(:disabled)")]
        .filter((e) => e.checkVisibility()).map((e) => e.outerHTML.slice(0, 120));
      """;

  @Test
  @Order(6)
  void endingAtTheDeskEndsItOnThePhone() {
    desk.click("#share-looks summary");
    desk.see(".share-looks", "Anna, ");
    assertThat(Axe.violations(desk)).isEmpty();
    phone.size(390, 844);
    desk.click("[data-as=phone] summary");
    phone.open(desk.see("[data-as=phone] .share-link").getText());
    phone.see("#phone-go");
    desk.click("[data-as=phone] .share-stop");
    desk.count(".share-open[data-as]", 1, 20);
    desk.click("[data-as=corrector] .share-stop");
    desk.count(".share-open[data-as]", 0, 20);
    desk.see("#share-phone");
    assertThat(desk.script("return document.activeElement !== document.body")).isEqualTo(true);
    phone.see(".dead-end h1", "isn't shared any more");
    phone.open(service.base().replace("127.0.0.1", "127.0.0.2") + "/");
    phone.see("h1", "This link has ended");
  }

  /** At the desk: a page without music is photographed again, and that is taken back. */
  @Test
  @Order(7)
  void aNewPictureAtTheDeskTakesThePlaceAndIsTakenBack() throws IOException {
    book = api.post("/api/books", Map.of("title", "Flotsam", "part", "Bass")).path("id").asString();
    desk.go("/book.html?b=" + book);
    desk.files("#choose-files", List.of(BadFiles.whitePage(folder)));
    desk.see(".thumb", "Take it again");
    desk.files(".thumb input[type=file]", List.of(DemoBook.page("page-01.png")));
    desk.waiting(120)
        .until(d -> sources().equals("page-01.png") || !desk.all("dialog[open]").isEmpty());
    if (!desk.all("dialog[open]").isEmpty()) {
      desk.click("dialog [type=submit]");
    }
    desk.see(".toast", "New picture of page 1");
    desk.waiting(30).until(d -> sources().equals("page-01.png"));
    desk.click(".toast .btn-quiet");
    desk.waiting(30).until(d -> sources().equals("white.png"));
    // what the browser keeps for a night without the service may have been of the page taken back
    assertThat(desk.complaints())
        .allMatch(said -> said.contains("/image?width=") || said.contains("/crop?bar="))
        .noneMatch(said -> said.contains("/pages//"));
  }

  /** What goes wrong with a photograph, drawn into a good one. */
  private enum Fault {
    BLURRED,
    CUT,
    GLARE,
    FINGER;

    Path made(Path folder) throws IOException {
      BufferedImage good = ImageIO.read(photo().toFile());
      int w = good.getWidth();
      int h = good.getHeight();
      BufferedImage made =
          switch (this) {
            case BLURRED -> scaled(scaled(good, w / 8, h / 8), w, h);
            case CUT -> good.getSubimage(w / 8, 0, w - w / 8, h);
            default -> good;
          };
      Graphics2D g = made.createGraphics();
      if (this == GLARE) {
        Color clear = new Color(255, 255, 255, 0);
        g.setPaint(
            new RadialGradientPaint(
                w * 0.6f,
                h * 0.35f,
                w * 0.12f,
                new float[] {0, 0.5f, 1},
                new Color[] {Color.WHITE, new Color(255, 255, 255, 250), clear}));
        g.fillRect(0, 0, w, h);
      } else if (this == FINGER) {
        g.setColor(SKIN);
        g.fill(new Ellipse2D.Double(w * 0.5, h * 0.89, h * 0.045, h * 0.15));
      }
      g.dispose();
      Path file = folder.resolve(name().toLowerCase(Locale.ROOT) + ".jpg");
      ImageIO.write(made, "jpg", file.toFile());
      return file;
    }

    private static BufferedImage scaled(BufferedImage image, int w, int h) {
      BufferedImage made = new BufferedImage(w, h, BufferedImage.TYPE_INT_RGB);
      Graphics2D g = made.createGraphics();
      g.setRenderingHint(
          RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
      g.drawImage(image, 0, 0, w, h, null);
      g.dispose();
      return made;
    }
  }
}
