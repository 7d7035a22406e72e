"""What falls due on a trip: service, wheel nuts, and what carries a date.

In come the profile's service entries, readings, wheels and dates, and the days of the trip; out go what each
meter reads, when each thing is due, what is left of it, and findings. Tires age in ``tires``, not here.
"""
