"""Output of a setting: what its runs have in common."""

from ozonewright.questions.setting.mean import (
    STEADY,
    RunPoint,
    SettingOutput,
    Settled,
    setting_output,
)

__all__ = ["STEADY", "RunPoint", "SettingOutput", "Settled", "setting_output"]
