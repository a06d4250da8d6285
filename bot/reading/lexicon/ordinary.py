"""Ordinary words that lie near one of ours and are never taken for a slip of it."""

ORDINARY = frozenset(
    {
        "almost", "angry", "ant", "ants", "bad", "ball", "bed", "bee", "bell", "big", "blue",
        "bold", "bone", "bring", "broke", "broken", "buds", "bug", "bunny", "call", "calm",
        "cat", "clean", "clear", "clipped", "close", "closed", "cloud", "cold", "cone",
        "cool", "crap", "crowd", "cull", "dad", "deaf", "deal", "dealt", "dear", "den", "dog",
        "done", "drab", "drain", "drone", "dude", "dug", "duo", "egos", "egret", "fad", "fee",
        "fell", "flaying", "floor", "fog", "fold", "fool", "foot", "frames", "funny", "gate",
        "gene", "gold", "grab", "grain", "green", "guess", "had", "half-way", "hall", "hat",
        "head", "healed", "heap", "hear", "heat", "heavy", "hen", "hold", "hone", "honest",
        "hood", "hopefully", "hornet", "hot", "hung", "if", "keep", "kept", "large", "last",
        "layer", "layers", "lead", "led", "left", "lid", "lift", "list", "load", "locked",
        "lone", "lose", "loss", "lost", "loud", "lying", "mad", "main", "mark", "marked",
        "may", "maybe", "mean", "men", "mice", "might", "mite", "mites", "mold", "money",
        "mood", "moth", "moths", "mouse", "mud", "must", "nearly", "need", "needs", "next",
        "ought", "pain", "painted", "paying", "pen", "perhaps", "playing", "pool", "possibly",
        "probably", "queer", "queue", "quick", "quiet", "quite", "rains", "rang", "read",
        "red", "rib", "ring", "road", "rob", "robin", "rood", "roof", "rub", "sad", "saying",
        "sealer", "sell", "should", "small", "soon", "sorted", "sport", "spotless", "store",
        "storm", "stormy", "story", "strap", "strong", "sunny", "sure", "tall", "tell",
        "temper", "tempered", "ten", "think", "told", "tone", "tool", "track", "train",
        "tramp", "tree", "trip", "unless", "unsure", "varroa", "wall", "want", "wants",
        "wasp", "wasps", "water", "wax", "weak", "well", "wet", "white", "will", "wing",
        "wings", "wood", "would", "wrap", "yellow", "zone",
    }
)  # fmt: skip
"""Among them the words of doubt and of wishes: what may be or should be was not seen."""
