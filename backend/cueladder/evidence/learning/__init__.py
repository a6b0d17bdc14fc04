"""What a club's own lessons say of how its fencers learn, and which rule would serve them.

`cells` gathers the marks, `law` says how fencers are taken to learn, `fit` finds the law's
figures with their ranges, `course` teaches invented fencers of these figures by a chart, `compare`
holds rules against each other, `breaks` says what is lost over a break, `numbers` what may leave
the club.
"""
