"""The trainees' side of the exchange in a container, as `server/environments` writes it."""

c = get_config()  # type: ignore[name-defined]  # noqa: F821
c.CourseDirectory.course_id = "fuelcircuits"
c.ExchangeFactory.fetch_assignment = "own_exchange.FetchAssignment"
c.ExchangeFactory.fetch_feedback = "own_exchange.FetchFeedback"
c.ExchangeFactory.submit = "own_exchange.Submit"
c.ExchangeFactory.list = "own_exchange.List"
