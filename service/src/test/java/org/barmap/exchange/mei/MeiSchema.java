package org.barmap.exchange.mei;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.transform.Source;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import javax.xml.validation.Validator;
import org.xml.sax.ErrorHandler;
import org.xml.sax.SAXException;
import org.xml.sax.SAXParseException;

/** What MEI says of the elements that are written; {@code README.md} says where it comes from. */
final class MeiSchema {

  private static final Schema SCHEMA = schema();

  private MeiSchema() {}

  private static Schema schema() {
    try {
      return SchemaFactory.newDefaultInstance()
          .newSchema(
              Stream.of("xml.xsd", "mei-written.xsd")
                  .map(MeiSchema::source)
                  .toArray(Source[]::new));
    } catch (SAXException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Source source(String name) {
    return new StreamSource(
        Objects.requireNonNull(MeiSchema.class.getResource(name)).toExternalForm());
  }

  /** Returns what of a file breaks it. */
  static List<String> broken(byte[] mei) throws IOException {
    List<String> broken = new ArrayList<>();
    try {
      Validator validator = SCHEMA.newValidator();
      validator.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
      validator.setErrorHandler(
          new ErrorHandler() {
            @Override
            public void warning(SAXParseException e) {
              error(e);
            }

            @Override
            public void error(SAXParseException e) {
              broken.add(e.getLineNumber() + ": " + e.getMessage());
            }

            @Override
            public void fatalError(SAXParseException e) {
              error(e);
            }
          });
      validator.validate(new StreamSource(new ByteArrayInputStream(mei)));
    } catch (SAXException e) {
      broken.add(String.valueOf(e.getMessage()));
    }
    return broken;
  }
}
