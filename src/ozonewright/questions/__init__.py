"""One room per question: judgement from records."""
