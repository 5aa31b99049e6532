package org.barmap.exchange;

import java.io.ByteArrayInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;

/** An XML reader for strangers' files: no document types, no entities, no outside, no depths. */
final class SafeXml {
  private static final int MAX_DEPTH = 64;

  private SafeXml() {}

  /**
   * Returns a reader at the start of the document. A document type is passed over unread; what
   * refers to an entity declared in it fails.
   */
  static XMLStreamReader reader(byte[] xml) throws XMLStreamException {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("refers to something outside the file");
        });
    return new Shallow(factory.createXMLStreamReader(new ByteArrayInputStream(xml)));
  }

  private static final class Shallow extends StreamReaderDelegate {
    private int depth;

    Shallow(XMLStreamReader reader) {
      super(reader);
    }

    @Override
    public int next() throws XMLStreamException {
      int event = super.next();
      if (event == START_ELEMENT && ++depth > MAX_DEPTH) {
        throw new XMLStreamException("elements are nested more than " + MAX_DEPTH + " deep");
      }
      if (event == END_ELEMENT) {
        depth--;
      }
      if (event == ENTITY_REFERENCE) {
        throw new XMLStreamException("uses an entity");
      }
      return event;
    }
  }
}
