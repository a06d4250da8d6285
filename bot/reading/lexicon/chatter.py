"""What people say around a report: greetings, cries, and remarks that change nothing in it."""

CHATTER: tuple[str, ...] = (
    "good morning", "good afternoon", "good evening", "good day", "good night", "morning all",
    "lovely morning", "beautiful morning", "lovely morning here", "what a day", "hi there",
    "hello there", "hey there", "hi all", "dear all", "hello all", "hey all", "all right",
    "good as gold", "could you", "would you", "can you", "next is", "next up", "moving on to",
    "moving on", "on to", "over to", "hiya", "howdy", "yo", "dear", "mate", "folks", "guys",
    "cheers", "ta", "many thanks", "thanks a lot", "pls", "plz", "thank you very much", "tks",
    "ty", "kk", "k", "lol", "lmao", "haha", "hahaha", "hehe", "smh", "omg", "yay", "wow", "woohoo",
    "hooray", "ugh", "argh", "dang", "damn", "gosh", "cool", "great", "brilliant", "awesome",
    "sweet", "perfect", "sure thing", "got it", "will do thanks", "no problem", "np", "roger",
    "noted", "understood", "alright", "right then", "bye", "goodbye", "see you", "great news",
    "good news", "bad news", "sadly", "unfortunately", "happily", "afraid", "i am afraid", "alas",
    "sorry to say", "sad to say", "pleased to say", "happy to say", "glad to say",
    "happy to report", "i am pleased to say", "i am happy to say", "i am sorry to say",
    "i am glad to say", "pleased to report", "am", "had a look", "i had a look", "took a look",
    "had a peek", "just had a look", "have had a look", "as expected", "as usual", "of course",
    "for sure", "at last", "thank goodness", "thank god", "bless her", "poor thing", "poor things",
    "poor girl", "poor girls", "poor old girl", "poor lass", "just checked", "just looked",
    "just opened", "went through", "been through", "by the way", "btw", "fyi", "ps",
    "weather permitting", "what a shame", "such a shame", "shame", "too bad", "oh", "oh well",
    "ah", "ahh", "hm", "hmm", "er", "um", "erm", "sigh",
)  # fmt: skip
"""May stand anywhere without changing what is reported."""

IDLE_REMARKS: tuple[str, ...] = (
    "nothing to report", "nothing new", "nothing special", "nothing else", "nothing more", "off",
    "nothing much", "nothing to see", "nothing unusual", "no change", "no changes", "no news",
    "a beauty", "what a beauty", "beauty", "gorgeous", "huge", "she huge", "fat", "large", "big",
    "nice and big", "lovely big", "long", "dark", "golden", "good looking", "everywhere",
    "all over", "all over the place", "lots of them", "loads of them", "plenty of them", "loads",
    "loads of", "tons of", "tons", "heaps of", "a lot of", "wax moth", "wax moths", "moth",
    "moths", "wax moth everywhere", "by wasps", "by the wasps", "wasps", "the wasps", "bees calm",
    "calm", "bees happy", "happy", "busy", "bees busy", "doing fine", "doing well", "doing great",
    "looking good", "looking great", "looking fine", "looks good", "looks great", "looks fine",
    "all good", "all fine", "all well", "fine", "great stuff", "strong", "pretty", "windy",
    "sunny", "warm", "cloudy", "overcast", "breezy", "day", "super", "in good shape",
    "nice and strong", "properly", "nicely", "beautifully", "this time", "so far", "as of now",
    "at the moment", "right now", "healthy", "quickly", "slowly", "overnight", "early",
    "nice work", "well done", "boom", "left in there", "as well today", "to be seen",
)  # fmt: skip
"""Say something, but nothing to record; beside a finding they may be left out."""
