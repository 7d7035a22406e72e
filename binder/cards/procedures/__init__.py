"""Words of procedures: a card's file and an assessment come in, its sides and reasons go out.

``reading`` reads ``templates/procedures``; ``conditions`` and ``facts`` are what a file may name; ``lines``
says the words for one rig. What is computed is made by the cards and set where their files say.
"""
