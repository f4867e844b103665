"""The guide at the booth window: from plan and log to what to do now."""
