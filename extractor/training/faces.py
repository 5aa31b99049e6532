"""faces.py --out FOLDER: gathers the free typefaces that crops are drawn from, reduced to Latin letters (needs fonttools).

Debian packages: fonts-dejavu-core fonts-liberation2 fonts-urw-base35 fonts-texgyre fonts-cmu fonts-linuxlibertine fonts-ebgaramond fonts-oldstandard
fonts-gfs-didot fonts-gfs-bodoni-classic fonts-essays1743 fonts-goudybookletter fonts-century-catalogue fonts-adf-baskervald fonts-cardo fonts-lato
fonts-crosextra-carlito fonts-crosextra-caladea fonts-sil-andika fonts-averia-serif-gwf fonts-roboto-slab fonts-quattrocento fonts-prociono fonts-cabin
fonts-league-spartan fonts-bebas-neue fonts-levien-typoscript fonts-dustin fonts-allerta fonts-play; by hand: fonts-dkg-handwriting fonts-humor-sans
fonts-breip fonts-comic-neue fonts-femkeklaver fonts-isabella fonts-kristi fonts-rufscript fonts-tomsontalks fonts-ecolier-court fonts-dancingscript
fonts-kaushanscript fonts-klee fonts-yusei-magic fonts-sjfonts fonts-bajaderka; music digits: lilypond.
"""
import argparse
import glob
import os
import subprocess

LATIN = "U+0020-007E,U+2669,U+266A,U+266D,U+266F,U+00B0"
HAND = """dkg.ttf Humor-Sans.ttf breipfont.ttf ComicNeue-Regular.otf femkeklaver.ttf Isabella.ttf Kristi.ttf Rufscript010.ttf TomsonTalks.ttf Ecolier-court.ttf
DancingScript-Regular.otf KaushanScript-Regular.otf YuseiMagic-Regular.ttf SteveHand.ttf Bajaderka-Regular.otf Domestic_Manners.ttf KleeOne-Regular.ttf MarkedFool.ttf""".split()
TEXT = """Andika-Bold Andika-Italic Andika-Regular AveriaSerifGWF-Bold AveriaSerifGWF-Regular BaskervaldADFStd-Bold BaskervaldADFStd-BoldItalic BaskervaldADFStd-Heavy
BaskervaldADFStd BaskervaldADFStd-Italic BebasNeue-Regular C059-BdIta C059-Bold C059-Italic C059-Roman Cabin-Bold Cabin-Regular Caladea-Bold Caladea-BoldItalic Caladea-Regular
Carlito-Bold Carlito-Regular Cardo104s Cardob101 Cardoi99 Century-Catalogue DejaVuSans DejaVuSans-Bold DejaVuSerif DejaVuSerif-Bold EBGaramond12-Bold EBGaramond12-Italic
EBGaramond12-Regular Essays1743 Essays1743-Bold Essays1743-Italic Essays1743-BoldItalic FreeSerifBold FreeSerifBoldItalic FreeSerifItalic FreeSans FreeSansBold GFSBodoniClassic
GFSDidot GFSDidotBold GFSDidotBoldItalic GFSDidotItalic GoudyBookletter1911 Gentium-R Gentium-I Lato-Bold Lato-Regular Lato-Black LeagueSpartan-Bold LiberationSans-Bold
LiberationSans-Regular LiberationSans-Italic LiberationSansNarrow-Bold LiberationSansNarrow-Regular LiberationSerif-Bold LiberationSerif-BoldItalic LiberationSerif-Italic
LiberationSerif-Regular LinLibertine_RB LinLibertine_RBI LinLibertine_RI LinLibertine_R NimbusRoman-Bold NimbusRoman-BoldItalic NimbusRoman-Italic NimbusRoman-Regular NimbusSans-Bold
NimbusSans-BoldItalic NimbusSans-Regular NimbusSansNarrow-Bold OldStandard-Bold OldStandard-Italic OldStandard-Regular P052-Bold P052-BoldItalic P052-Italic P052-Roman Play-Bold
Prociono Quattrocento-Regular RobotoSlab-Bold RobotoSlab-Regular TypoScript Tuffy_Bold Tuffy URWBookman-Demi URWBookman-DemiItalic URWBookman-Light URWBookman-LightItalic
URWGothic-Book URWGothic-Demi allerta_medium cmunbx cmunbi cmunrm cmunti cmunss cmunsx cmuntt texgyrebonum-bold texgyreschola-bold texgyreschola-bolditalic texgyreschola-regular
texgyreschola-italic texgyretermes-bold texgyreheroscn-bold texgyreadventor-bold texgyrepagella-bold LiberationMono-Bold NimbusMonoPS-Regular Dustismo_Roman_Bold""".split()


def subset(src, dst, unicodes=LATIN):
    subprocess.run(["pyftsubset", src, "--unicodes=" + unicodes, "--output-file=" + dst, "--no-hinting", "--layout-features="], check=True, stderr=subprocess.DEVNULL)


def main():
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("--out", required=True)
    ap.add_argument("--from", dest="src", default="/usr/share/fonts")
    a = ap.parse_args()
    have = {os.path.basename(f): f for f in glob.glob(a.src + "/**/*.?tf", recursive=True)}
    for kind, names in (("hand", HAND), ("text", [n + e for n in TEXT for e in (".ttf", ".otf")])):
        os.makedirs(os.path.join(a.out, kind), exist_ok=True)
        for n in names:
            if n in have:
                subset(have[n], os.path.join(a.out, kind, n))
    os.makedirs(os.path.join(a.out, "music"), exist_ok=True)
    for size in (11, 18, 26):
        for f in glob.glob("/usr/share/lilypond/*/fonts/otf/emmentaler-%d.otf" % size):
            subset(f, os.path.join(a.out, "music", os.path.basename(f)), "U+0030-0039")


if __name__ == "__main__":
    main()
