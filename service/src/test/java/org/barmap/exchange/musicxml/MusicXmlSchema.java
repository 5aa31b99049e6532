package org.barmap.exchange.musicxml;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URL;
import java.util.Objects;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.w3c.dom.bootstrap.DOMImplementationRegistry;
import org.w3c.dom.ls.DOMImplementationLS;
import org.w3c.dom.ls.LSInput;
import org.xml.sax.InputSource;

/** The W3C's MusicXML 4.0 schema, as the binding's jar carries it. */
public final class MusicXmlSchema {
  private static final DOMImplementationLS LS = loading();
  private static final Schema SCHEMA = load();

  private MusicXmlSchema() {}

  /** Throws when a document breaks the schema. */
  public static void check(byte[] xml) throws Exception {
    var parser = javax.xml.parsers.SAXParserFactory.newDefaultNSInstance();
    parser.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    var source =
        new javax.xml.transform.sax.SAXSource(
            parser.newSAXParser().getXMLReader(), new InputSource(new ByteArrayInputStream(xml)));
    SCHEMA.newValidator().validate(source);
  }

  private static Schema load() {
    try {
      SchemaFactory factory = SchemaFactory.newDefaultInstance();
      factory.setProperty(XMLConstants.ACCESS_EXTERNAL_SCHEMA, "jar,file");
      factory.setProperty("jdk.xml.maxOccurLimit", 0);
      factory.setResourceResolver(
          (type, namespace, publicId, systemId, base) -> {
            String file = systemId.substring(systemId.lastIndexOf('/') + 1);
            URL ours = MusicXmlSchema.class.getResource(file);
            return ours == null ? null : input(ours);
          });
      URL xsd =
          Objects.requireNonNull(
              MusicXmlSchema.class.getResource("/META-INF/jaxb/xsd/musicxml.xsd"));
      return factory.newSchema(new StreamSource(xsd.toExternalForm()));
    } catch (org.xml.sax.SAXException e) {
      throw new IllegalStateException(e);
    }
  }

  /** A schema that lies beside the tests. */
  private static LSInput input(URL schema) {
    try {
      LSInput input = LS.createLSInput();
      input.setByteStream(schema.openStream());
      input.setSystemId(schema.toExternalForm());
      return input;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static DOMImplementationLS loading() {
    try {
      return (DOMImplementationLS)
          DOMImplementationRegistry.newInstance().getDOMImplementation("LS");
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }
}
