ALTER TABLE `summary` ADD `finished_at` integer;--> statement-breakpoint
CREATE INDEX `summary_finished` ON `summary` (`finished_at`);--> statement-breakpoint
UPDATE `summary` SET `finished_at` = json_extract(`summary`, '$.changedAt')
WHERE json_valid(`summary`) AND json_extract(`summary`, '$.reason.code') = 'released';
