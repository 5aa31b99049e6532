"""The letters the reader knows, and other ways of writing them."""
import unicodedata

# all in the Basic Multilingual Plane, one Java char each; a half note is written ○, the segno and coda signs § and ⊕
CHARS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz ./|,()-'&=:+!?\"#♩♪○♭♯°§⊕"
SAME = {"’": "'", "‘": "'", "“": '"', "”": '"', "–": "-", "—": "-", "\u00a0": " ", "[": "(", "]": ")", "×": "x", "ß": "ss",
        "\U0001d15f": "♩", "\ue1d5": "♩", "\ueca5": "♩", "\U0001d160": "♪", "\ue1d7": "♪", "\uecaa": "♪", "\ueca7": "♪",
        "\U0001d15e": "○", "\U0001d157": "○", "\ue1d3": "○", "\ueca3": "○", "½": "○", "\U0001d10b": "§", "\ue047": "§",
        "\U0001d10c": "⊕", "\ue048": "⊕"}


def plain(text):
    """the text in the reader's letters; None when it has others"""
    for a, b in SAME.items():
        text = text.replace(a, b)
    text = "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))
    text = " ".join(text.split())
    return text if all(c in CHARS for c in text) and len(text) <= 40 else None


def encode(text):
    return [CHARS.index(c) + 1 for c in text]
