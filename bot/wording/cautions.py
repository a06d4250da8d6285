"""The yearly caution: what can hurt a keeper, and who may be asked.

Every sentence is our own. Where a fact was read somewhere it stands beside the sentence; the
rest is common practice, no source.
"""

_STINGS = (
    # Remove a sting at once, by any means: Visscher, Vetter and Camazine 1996, Lancet 348:301,
    # https://bees.ucr.edu/bee-sting-removal
    # Signs, lying down with legs raised, calling emergency help, onset mostly within 5 minutes:
    # Apiculture New Zealand, https://apinz.org.nz/bee-stings/
    # Many stings are an emergency: Ulster Beekeepers' Association,
    # https://www.ubka.org/beekeeping/bee-stings/
    # Hospital afterwards, since a reaction may return hours later: British Beekeepers'
    # Association, https://archive.bbka.org.uk/help/stings/anaphylactic_shock
    # Sitting up when breathing is the problem: https://meridianbeekeepers.com/2020/10/25/anaphylasis/
    "Stings: pull each out at once, any way. Trouble breathing, faintness, wide rash, "
    "swollen throat or many stings: call the emergency number, lie down legs raised "
    "(sit if breathing is hard), use your prescribed auto-injector, "
    "go to hospital even if it passes. Do not work alone; say where you are."
)

_HEAT = (
    # Heavy or non-breathable clothing needs more care than the heat index alone says: US OSHA,
    # Using the Heat Index, https://docslib.org/doc/11368942/using-the-heat-index-a-guide-for-employers
    # Drinking about half a litre an hour in heat: University of Florida IFAS,
    # https://blogs.ifas.ufl.edu/orangeco/2017/10/17/just-reminder-protect-heat-stress
    # That confusion calls for emergency help: from memory.
    "Heat: a suit makes it worse. Go early, rest in shade, drink half a litre an hour. "
    "Confused: emergency number."
)

_LIFTING = "Lifting: bend your knees, get help."

_SMOKER = (
    # Fire bans, water or an extinguisher at hand, a smoker fully out afterwards: New South Wales
    # Department of Primary Industries, https://www.dpi.nsw.gov.au/animals-and-livestock/bees/
    # management/seasonal-management/beekeeping-during-bushfire-periods
    # Cleared or damp ground, a fire-proof box while lit: Shire of Chittering,
    # https://www.chittering.wa.gov.au/news/using-bee-smoker-devices-in-prescribed-burning-times/10179?c=18
    "Smoker: bare or damp ground, water at hand, fully out after; obey fire bans."
)

_FOOD_AND_TREATMENTS = (
    # White sugar only and no honey of unknown source: National Bee Unit, best practice
    # guideline 7, Feeding Bees, https://readkong.com/page/
    # feeding-bees-national-bee-unit-best-practice-guideline-no-7-1098087
    # That hot syrup burns: from memory.
    # Labels and local law for treatments: general duty, from memory.
    "Syrup: white sugar, no strange honey; hot syrup burns. "
    "Traps, treatments: by label and law; I give no doses."
)

_LAW = (
    # Certificates before bees or queens are moved: for one, New Hampshire RSA 429:7,
    # http://statutes.laws-info.com/new-hampshire/TITLEXL/CHAPTER429/429-7
    "Moving and selling bees has local rules: ask your apiary inspector. "
    "Illness: a doctor. Sick bees: inspector or vet. Dates are estimates."
)


def cautions() -> str:
    """Say the whole caution, five SMS segments, once a year and when asked."""
    return "\n".join((_STINGS, _HEAT, _LIFTING, _SMOKER, _FOOD_AND_TREATMENTS, _LAW))
