package org.barmap.exchange.mei;

import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.barmap.exchange.musicxml.write.XmlText;

/** Writes elements in one line each; text and values are never markup. */
final class Xml {
  private final XMLStreamWriter out;

  Xml(XMLStreamWriter out) {
    this.out = out;
  }

  /** Opens an element with its attributes, name and value in turn; empty values are left out. */
  Xml open(String name, String... attributes) throws XMLStreamException {
    out.writeCharacters("\n");
    out.writeStartElement(name);
    return with(attributes);
  }

  /** Opens an element in the midst of text. */
  Xml inside(String name, String... attributes) throws XMLStreamException {
    out.writeStartElement(name);
    return with(attributes);
  }

  /** Writes an element without content. */
  Xml empty(String name, String... attributes) throws XMLStreamException {
    out.writeCharacters("\n");
    out.writeEmptyElement(name);
    return with(attributes);
  }

  private Xml with(String... attributes) throws XMLStreamException {
    for (int i = 0; i + 1 < attributes.length; i += 2) {
      attribute(attributes[i], attributes[i + 1]);
    }
    return this;
  }

  /** Adds an attribute to the element that was just opened; an empty one is left out. */
  void attribute(String name, String value) throws XMLStreamException {
    String clean = XmlText.clean(value);
    if (!clean.isEmpty()) {
      out.writeAttribute(name, clean);
    }
  }

  /** Returns a name as MEI's {@code n} takes it: letters, figures and signs, no spaces. */
  static String word(String name) {
    return name.strip().replaceAll("[^\\p{L}\\p{N}\\p{P}\\p{S}]+", "_");
  }

  Xml text(String text) throws XMLStreamException {
    out.writeCharacters(XmlText.clean(text));
    return this;
  }

  Xml close() throws XMLStreamException {
    out.writeEndElement();
    return this;
  }
}
