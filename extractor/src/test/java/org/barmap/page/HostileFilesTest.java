package org.barmap.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;
import org.barmap.map.Finding;
import org.barmap.map.Stage;
import org.barmap.page.file.PageFiles;
import org.barmap.page.pixel.Mats;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that can't be read say why in one line, and the good page after them is still read. */
class HostileFilesTest {

  @TempDir Path dir;
  private Path good = Path.of("");

  @BeforeEach
  void paintGoodPage() {
    good = dir.resolve("good.png");
    try (PagePainter p = new PagePainter(1000, 600)) {
      p.staff(60, 940, 150, 12).staff(60, 940, 350, 12).write(good);
    }
  }

  /** Reads a file and then the good one; returns the finding about the first. */
  private Finding failure(Path file) {
    List<Finding> findings = new ArrayList<>();
    int pages = 0;
    try (PageSource source = new PageSource(List.of(file, good))) {
      while (source.hasNext()) {
        PageResult result = source.next();
        if (result instanceof PageResult.Loaded loaded) {
          assertThat(loaded.source()).isEqualTo("good.png");
          loaded.page().close();
          pages++;
        } else {
          findings.addAll(result.findings());
        }
      }
    }
    assertThat(pages).isEqualTo(1);
    assertThat(findings).hasSize(1);
    assertThat(Mats.live()).isZero();
    Finding f = findings.get(0);
    assertThat(f.stage()).isEqualTo(Stage.FILE);
    assertThat(f.text())
        .startsWith(PageFiles.name(file) + ": ")
        .doesNotContain("\n", "Exception", "org.");
    return f;
  }

  private Path file(String name, byte[] content) throws IOException {
    return Files.write(dir.resolve(name), content);
  }

  @Test
  void emptyFile() throws IOException {
    assertThat(failure(file("empty.png", new byte[0])).code()).isEqualTo("empty");
  }

  @Test
  void textNamedPng() throws IOException {
    Path f = file("text.png", "Dear player, ...".getBytes(StandardCharsets.UTF_8));
    assertThat(failure(f).code()).isEqualTo("not-a-page");
  }

  @Test
  void brokenOffFiles() throws IOException {
    Path jpeg = dir.resolve("whole.jpg");
    try (PagePainter p = new PagePainter(1000, 600)) {
      p.staff(60, 940, 150, 12).write(jpeg);
    }
    byte[] j = Files.readAllBytes(jpeg);
    for (int part : new int[] {4, 30, 300, j.length / 2, j.length - 2}) {
      assertThat(failure(file("half" + part + ".jpg", Arrays.copyOf(j, part))).code())
          .as("%d bytes of a JPEG", part)
          .isEqualTo("truncated");
    }
    byte[] p = Files.readAllBytes(good);
    for (int part : new int[] {9, 20, 60, p.length / 2, p.length - 5}) {
      // without its whole header a PNG says nothing of its length, so it can't be known to be cut
      // off
      assertThat(failure(file("half" + part + ".png", Arrays.copyOf(p, part))).code())
          .as("%d bytes of a PNG", part)
          .isEqualTo(part < 33 ? "damaged" : "truncated");
    }
  }

  @Test
  void garbledFiles() throws IOException {
    byte[] p = Files.readAllBytes(good);
    Arrays.fill(p, 40, p.length - 12, (byte) 0x55);
    assertThat(failure(file("garbled.png", p)).code()).isEqualTo("truncated");
    byte[] tiff = new byte[200];
    tiff[0] = 'I';
    tiff[1] = 'I';
    tiff[2] = 42;
    tiff[4] = 8;
    Arrays.fill(tiff, 8, 200, (byte) 0x7f);
    assertThat(failure(file("garbled.tif", tiff)).code()).isEqualTo("no-pages");
    byte[] pdf = "%PDF-1.7\nnothing here\n%%EOF\n".getBytes(StandardCharsets.US_ASCII);
    assertThat(failure(file("garbled.pdf", pdf)).code()).isEqualTo("damaged");
  }

  @Test
  void pictureOf30000Squared() throws IOException {
    Finding f = failure(file("huge.png", Bombs.png(30_000, 30_000, 0, 1)));
    assertThat(f.code()).isEqualTo("too-large");
    assertThat(f.text()).contains("30000 x 30000");
  }

  /** What is put into a PDF. */
  private interface Content {
    void into(PDDocument d) throws IOException;
  }

  private Path pdf(String name, Content content) throws IOException {
    Path f = dir.resolve(name);
    try (PDDocument d = new PDDocument()) {
      content.into(d);
      d.save(f.toFile());
    }
    return f;
  }

  @Test
  void encryptedPdf() throws IOException {
    Path f =
        pdf(
            "locked.pdf",
            d -> {
              d.addPage(new PDPage());
              d.protect(new StandardProtectionPolicy("owner", "user", new AccessPermission()));
            });
    assertThat(failure(f).code()).isEqualTo("encrypted");
  }

  @Test
  void pdfOf3000Pages() throws IOException {
    Path f =
        pdf(
            "long.pdf",
            d -> {
              for (int i = 0; i < 3000; i++) {
                d.addPage(new PDPage());
              }
            });
    Finding finding = failure(f);
    assertThat(finding.code()).isEqualTo("too-many-pages");
    assertThat(finding.text()).contains("3000").contains("600");
  }

  @Test
  void pdfWithAHugePictureInside() throws IOException {
    Path f =
        pdf(
            "bomb.pdf",
            d -> {
              PDPage page = new PDPage(PDRectangle.A4);
              d.addPage(page);
              var stream = new PDStream(d, new java.io.ByteArrayInputStream(new byte[100]));
              var image =
                  new org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject(
                      stream, new org.apache.pdfbox.pdmodel.PDResources());
              image.setWidth(60_000);
              image.setHeight(60_000);
              image.setBitsPerComponent(8);
              image.setColorSpace(org.apache.pdfbox.pdmodel.graphics.color.PDDeviceGray.INSTANCE);
              try (var content = new org.apache.pdfbox.pdmodel.PDPageContentStream(d, page)) {
                content.drawImage(image, 0, 0, 500, 500);
              }
            });
    assertThat(failure(f).code()).isEqualTo("too-large");
  }

  @Test
  void pdfWithAHugePageIsDrawnSmall() throws IOException {
    Path f =
        pdf(
            "poster.pdf",
            d -> {
              d.addPage(new PDPage(new PDRectangle(14_400, 14_400)));
            });
    try (PageSource source = new PageSource(List.of(f))) {
      PageResult.Loaded loaded = (PageResult.Loaded) source.next();
      try (PageImage page = loaded.page()) {
        assertThat((long) page.width() * page.height()).isLessThan(41_000_000L);
      }
    }
  }

  @Test
  void unreadableFile() throws IOException {
    Path f = Files.copy(good, dir.resolve("mine.png"));
    assertThat(f.toFile().setReadable(false)).isTrue();
    String code = Files.isReadable(f) ? WithoutRights.run(CodeOf.class, f) : failure(f).code();
    assertThat(code).isEqualTo("no-access");
  }

  /** Prints the code of what is wrong with a file. */
  static final class CodeOf {
    private CodeOf() {}

    public static void main(String[] args) {
      try (PageSource source = new PageSource(List.of(Path.of(args[0])))) {
        source.next().findings().forEach(f -> System.out.print(f.code()));
      }
    }
  }

  /** As {@code cat page.png | barmap read /dev/stdin}. */
  @Test
  void aPipeIsReadOnceAndWhole() throws Exception {
    Path pipe = dir.resolve("pipe");
    assertThat(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor()).isZero();
    for (byte[] page : List.of(Files.readAllBytes(good), new byte[0])) {
      CompletableFuture<Void> writing =
          CompletableFuture.runAsync(
              () -> {
                try {
                  Files.write(pipe, page);
                } catch (IOException e) {
                  throw new IllegalStateException(e);
                }
              });
      try (PageSource source = new PageSource(List.of(pipe))) {
        PageResult result = source.next();
        if (result instanceof PageResult.Loaded loaded) {
          loaded.page().close();
        }
        assertThat(result instanceof PageResult.Loaded).isEqualTo(page.length > 0);
        assertThat(result.source()).isEqualTo("pipe");
      }
      writing.join();
    }
  }

  @Test
  void aFileThatVanishes() {
    assertThat(failure(dir.resolve("gone.png")).code()).isEqualTo("no-access");
  }

  @Test
  void foldersWithoutPagesAndMissingFiles() throws IOException {
    Path folder = Files.createDirectory(dir.resolve("folder"));
    Files.writeString(folder.resolve("notes.txt"), "x");
    PageFiles listed = PageFiles.list(List.of(folder, dir.resolve("missing.png"), good));
    assertThat(listed.files()).containsExactly(good);
    assertThat(listed.findings())
        .extracting(Finding::code)
        .containsExactly("no-pages", "not-there");
    assertThat(listed.findings().get(0).text()).startsWith("folder: ");
  }
}
