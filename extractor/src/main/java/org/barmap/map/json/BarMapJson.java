package org.barmap.map.json;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.rule.BarMapRules;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Reads and writes bar maps as JSON, checked against the project's JSON Schema both ways. */
public final class BarMapJson {

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .changeDefaultPropertyInclusion(v -> v.withValueInclusion(JsonInclude.Include.NON_ABSENT))
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .disable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .disable(tools.jackson.databind.MapperFeature.SORT_PROPERTIES_ALPHABETICALLY)
          .enable(SerializationFeature.INDENT_OUTPUT)
          .build();

  private BarMapJson() {}

  /**
   * Returns the mapper every part of barmap uses: absent optionals left out, unknown keys ignored.
   */
  public static JsonMapper mapper() {
    return MAPPER;
  }

  /**
   * Reads a bar map.
   *
   * @throws BadMapException when the text is no JSON, breaks the schema, or contradicts itself; the
   *     message names the first places
   */
  public static BarMap read(String json) {
    JsonNode tree;
    try {
      tree = MAPPER.readTree(withoutMark(json));
    } catch (JacksonException e) {
      throw new BadMapException(List.of("not JSON: " + e.getOriginalMessage()));
    }
    List<String> broken = BarMapSchema.check(tree);
    if (!broken.isEmpty()) {
      throw new BadMapException(broken);
    }
    BarMap map;
    try {
      map = MAPPER.treeToValue(tree, BarMap.class);
    } catch (JacksonException e) {
      throw new BadMapException(List.of(e.getOriginalMessage()));
    }
    List<String> wrong = BarMapRules.check(map);
    if (!wrong.isEmpty()) {
      throw new BadMapException(wrong);
    }
    return map;
  }

  /** Returns a text without the mark of its byte order, which some editors put first. */
  public static String withoutMark(String text) {
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  /** Reads a bar map from a file. */
  public static BarMap read(Path file) throws IOException {
    return read(Files.readString(file, StandardCharsets.UTF_8));
  }

  /** Reads a bar map from a stream, which stays open. */
  public static BarMap read(InputStream in) throws IOException {
    return read(new String(in.readAllBytes(), StandardCharsets.UTF_8));
  }

  /** Writes a bar map as text. */
  public static String write(BarMap map) {
    return MAPPER.writeValueAsString(map);
  }

  /** Writes a bar map to a file: whole or not at all. */
  public static void write(BarMap map, Path file) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null) {
      throw new IOException(file + " has no folder");
    }
    Files.createDirectories(folder);
    Path part = Files.createTempFile(folder, ".barmap", ".part");
    try {
      Files.writeString(part, write(map) + "\n", StandardCharsets.UTF_8);
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
