"""The texts in which the figures of the trade were read."""

from scheduling.trade.constant import Source

ACCESS_AGRICULTURE = Source(
    "Access Agriculture",
    "training text on rearing queen bees",
    "https://unyfa.fo-library.org/?p=22356",
)
ITALIAN_REARING = Source(
    "L'Apicoltore Moderno",
    "allevamento api regine",
    "https://www.apicoltoremoderno.it/allevamento-api-regine/",
)
BRUYN = Source(
    "de Bruyn",
    "Bee Craft 97(5):11-15",
    "http://content.yudu.com/A38z02/BC1505/resources/11.htm",
    2015,
)
BIENEN_MICHEL = Source(
    "bienen-michel.ch",
    "Koeniginnenzucht (Swiss rearing calendar)",
    "https://www.bienen-michel.ch/koeniginnenzucht/",
)
BTHENET = Source(
    "EU project B-THENET",
    "practice sheet on judging mating success and the onset of laying",
    "https://bthenet.eu/practices/beurteilung-des-begattungserfolgs-und-beginn-der-eiablage-"
    "durch-die-neue-konigin",
)
CAPPED_CELLS = Source(
    "Lone Oak",
    "How to use capped queen cells",
    "http://sbip.loneoakhoney.com/equipment-and-techniques/how-to-use-capped-queen-cells",
)
CHUDA = Source(
    "Chuda-Mickiewicz & Samborski",
    "Acta Sci. Pol. Zootechnica 14(4):25-32",
    "https://asp.zut.edu.pl/2015/14_4/asp-2015-14-4-337.pdf",
    2015,
)
CLUB_BEE_MATH = Source(
    "club talk", "table of bee development", "https://slideplayer.com./amp/12985101"
)
COLLISON = Source("Collison", "Laying workers", "http://basprings.com/laying-workers/")
COLOSS_MATING = Source(
    "Buechler et al.",
    "COLOSS BEEBOOK, queen rearing, section 2.2.2",
    "http://coloss.org/beebook/I/queen-rearing/2/2/2",
    2013,
)
CUSHMAN = Source(
    "Cushman", "Grafting timetable", "http://dave-cushman.net/bee/graftingtimesheet.html"
)
FELL = Source(
    "Fell & Morse (authors from memory)",
    "Insectes Sociaux, emergency queen cells, abstract",
    "https://beekeepingforum.co.uk/threads/from-queenless-to-emergency-cells.1440/",
    1984,
)
FRENCH_WORKSHOP = Source(
    "mesateliersdapiculture.fr",
    "Technique d'elevage de reines",
    "https://mesateliersdapiculture.fr/technique-elevage-de-reines",
)
FOUR_WAY_BOXES = Source(
    "producer's notes",
    "Queen yard and mating nucs",
    "https://eberthoney.com/blogs/news/queen-yard-and-mating-nucs",
)
GRAFT_TRIAL = Source(
    "grower's notes",
    "Queen cells, second batch",
    "http://rosecombapiaries.com/2012/03/queen-cells-second-batch-2012/",
    2012,
)
HARRIS = Source(
    "Harris & Sheridan, Mississippi Agricultural & Forestry Experiment Station",
    "Introduction to the Grafting Technique of Queen Rearing",
    "https://pdfslide.net/amp/documents/an-introduction-to-the-grafting-technique-of-queen-r-"
    "special-techniques-a-adummya.html",
)
MANAGING_BEETLES = Source(
    "The Grand Ole Apiary",
    "Managing small hive beetle infestations in Australian beehives",
    "http://thegrandoleapiary.com/managing-small-hive-beetle-infestations-in-australian-beehives/",
)
VIRGINS_RELEASED = Source(
    "May Farms", "Queen rearing, part 4", "http://mayfarmsllc.com/2017/04/23/queen-rearing-4/", 2017
)
MOVING_CELLS = Source("mathieua.fr", "Elevage express", "https://mathieua.fr/elevage-express.html")
MUEGGELLAND = Source(
    "imkerei.mueggelland.de", "Brutentwicklung", "https://imkerei.mueggelland.de/brutentwicklung/"
)
NORFOLK = Source(
    "Norfolk beekeepers",
    "When will my new queen start to lay",
    "https://www.norfolkbee.co.uk/beekeepers-FAQ/when-will-my-new-queen-start-to-lay",
)
NSW_REARING = Source(
    "Johnstone, NSW Department of Primary Industries",
    "Primefact 828, Rearing queen bees",
    "https://online.documentine.com/queen-bee-marking/1/rearing-queen-bees-department-of-primary-"
    "industries.html",
    2008,
)
PANASIUK = Source(
    "Panasiuk et al.",
    "COLOSS conference abstract",
    "http://coloss.org/2015conference/registrations/panasiuk",
    2015,
)
QUEEN_RELEASE = Source(
    "nycgardening.blogspot.com",
    "A very special delivery",
    "https://nycgardening.blogspot.com/2013/06/a-very-special-delivery.html",
    2013,
)
REARING_REMINDERS = Source(
    "Piney Woods beekeepers",
    "Queen rearing reminders",
    "https://www.pineywoodsbeekeepers.org/articles/queen-rearing-reminders",
)
SZABO = Source(
    "Szabo et al., as cited in the Honey Bee encyclopaedia",
    "J. Apic. Res. 26:73-78, onset of laying",
    "http://honeybee.drawwing.org/book/queen-egg-laying",
    1987,
)
TEMPERATURE_BEETLES = Source(
    "abstract (Meikle & Patt from memory)",
    "Effects of temperature, diet and other factors on Aethina tumida",
    "https://discovery.researcher.life/article/the-effects-of-temperature-diet-and-other-factors-"
    "on-development-survivorship-and-oviposition-of-aethina-tumida-coleoptera-nitidulidae/"
    "b0bacb1fbf733764827fcb06a9be902b",
)
USDA_BEETLES = Source(
    "USDA-ARS Baton Rouge",
    "Small hive beetles",
    "https://ars.usda.gov/southeast-area/baton-rouge-la/honeybeelab/docs/small-hive-beetles",
)
WADE = Source(
    "Wade, ACT Beekeepers",
    "Honey bee colony dynamics, part I: brood nest signatures",
    "https://actbeekeepers.asn.au/bee-buzz-box-september-2022-honey-bee-colony-dynamics-part-i-"
    "brood-nest-signatures/",
    2022,
)
BREEDER_DATES = Source(
    "breeder's dates", "Cloake board, day 6", "https://emgoldbeekeepers.com/cloake-board-day-6/"
)
INTRODUCTION_SHEET = Source(
    "breeder's introduction sheet",
    "introducing a caged queen: caged 3 to 5 days and no longer",
    "page address not kept",
)
WILDFLOWER = Source(
    "wildflowermeadows.com",
    "queen mating conditions; evenness of brood",
    "https://wildflowermeadows.com",
)
DRONE_AGE = Source(
    "adelaidebeesales.com.au",
    "It is time for the drones",
    "https://www.adelaidebeesales.com.au/post/it-is-time-for-the-drones",
)
COLOSS_FLIGHTS = Source(
    "COLOSS BEEBOOK",
    "behavioural studies, section 13.2, mating flights",
    "http://coloss.org/beebook/I/behavioural-studies/13/2",
    2013,
)
HONEY_PRODUCERS = Source(
    "American Honey Producers Association",
    "When will a newly hatched queen begin to lay",
    "https://americanhoneyproducers.org/when-will-a-newly-hatched-queen-begin-to-lay/",
)
BEE_FLIGHT = Source(
    "Black Hills Honey Farm",
    "Flight of the honey bee",
    "https://blackhillshoneyfarm.com/2014/09/flight-of-the-honey-bee/",
    2014,
)
HEAT_TULSA = Source(
    "US National Weather Service, Tulsa",
    "Heat index, table and bands",
    "http://www.srh.noaa.gov/tsa/?n=heatindex",
)
HEAT_AT_WORK = Source(
    "US Occupational Safety and Health Administration",
    "Using the heat index: a guide for employers",
    "https://docslib.org/doc/11368942/using-the-heat-index-a-guide-for-employers",
)
HEAT_BANDS = Source(
    "w12thrd.blogspot.com, quoting the US National Weather Service's chart",
    "What is heat index",
    "https://w12thrd.blogspot.com/2015/07/what-is-heat-index.html",
    2015,
)
EVERSWEET = Source(
    "eversweetapiaries.com", "from virgin to laying queen", "https://eversweetapiaries.com/?p=4631"
)
APIS_VET = Source(
    "apis.vet",
    "El apareamiento y fecundacion de la reina",
    "https://apis.vet/el-apareamiento-y-fecundacion-de-la-reina/",
)
NATURAL_MATING = Source(
    "Assiut natural mating study (abstract)",
    "natural mating of queens in Egypt",
    "https://ekb.troweb.app/item/Article/63cd542f089a490007b24fb5/",
)
AGROSCOPE_LIFE = Source(
    "Agroscope",
    "Lebensdauer (life span of the honey bee)",
    "https://www.agroscope.admin.ch/agroscope/en/home/topics/livestock/bees/biologie/"
    "lebensdauer.html",
)
BBKA_FEEDING = Source(
    "British Beekeepers Association",
    "August in the apiary",
    "https://www.bbka.org.uk/blog/august-in-the-apiary",
)
BURGETT = Source(
    "Burgett & Burikam",
    "J. Econ. Entomol. 78:1154-1156, with the earlier counts of Simpson and of Kauffeld",
    "https://studylib.net/doc/11559678/",
    1985,
)
CALIFORNIA_FRAMES = Source(
    "California pollination-colony inspection, as quoted",
    "comb area of ten deep frames and cells per square inch",
    "https://htfbw.com/science-nature/Insects---Science/55756.shtml",
)
COMSTOCK = Source(
    "Comstock",
    "How to Keep Bees, p. 137",
    "https://en.wikisource.org/wiki/Page:How_to_Keep_Bees.djvu/177",
    1905,
)
CRC_SUCROSE = Source(
    "CRC handbook of chemistry and physics, as numbers in pcingola/SnpEff",
    "density of aqueous sucrose solutions at 20 C",
    "https://github.com/pcingola/SnpEff/blob/029f8bec685073b85c106ac42a77d5e489f836ad/src/main/"
    "java/flanagan/physprop/Sucrose.java",
)
FRAME_ASSEMBLY = Source(
    "trade article", "Assembling frames", "https://docslib.org/doc/1122694/assembling-frames"
)
FRAME_BUILDING = Source(
    "kingbee.us", "Frame building", "https://kingbee.us/apiary/the-hive/frame-building"
)
HARBO_CONSUMPTION = Source(
    "abstract (Harbo from memory)",
    "Environ. Entomol. 12, bees and honey lost by small and large broodless colonies",
    "https://scilit.com/publications/b87a4e442dd8bcf2f014ec521719ef7b",
    1983,
)
HARBO_SIZES = Source(
    "abstract (Harbo from memory)",
    "J. Apic. Res. 25:22-29, brood per bee in colonies of 2,300 to 35,000 bees",
    "https://scilit.com/publications/fa4b86f0caa4181b1955ebf08a3cc64b",
    1986,
)
NSW_FEEDING = Source(
    "Somerville, NSW Department of Primary Industries",
    "Primefact 1343",
    "https://info.5y1.org/is-cane-sugar-bad-for-you_1_971bed.html",
    2014,
)
PHOTOGRAPHED_BEES = Source(
    "beyondbeebooks.substack.com",
    "Counting on bees",
    "https://beyondbeebooks.substack.com/p/counting-on-bees",
)
SWISS_STRENGTH = Source(
    "imker.felser.ch, citing Agroscope",
    "Volksstaerke beurteilen",
    "https://imker.felser.ch/imkerwiki/doku.php?do=export_xhtml&id=volksstaerke_beurteilen",
)
SYRUP_GALLON = Source(
    "dayswellspent.com",
    "Feeding bees, recipes for every season",
    "https://dayswellspent.com/feeding-bees-recipes-for-every-season/",
)
